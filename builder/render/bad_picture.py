"""What is said of a picture that cannot be published."""


class BadPicture(ValueError):
    """A picture that cannot be published, and why."""
