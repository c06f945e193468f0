"""What is said of a picture that cannot be published."""


class BadPicture(ValueError):
    """A picture that cannot be published, and why; of a drawing also where in its file, line and
    column from 1.
    """

    def __init__(self, why: str, place: tuple[int, int] | None = None) -> None:
        self.place = place
        super().__init__(why)

    @property
    def at(self) -> str:
        """The place in words, to stand behind the file's name; '' where there is none."""
        return f", line {self.place[0]}, column {self.place[1]}," if self.place is not None else ""
