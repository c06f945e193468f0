"""Pictures that a person gives, made anew for the site."""
