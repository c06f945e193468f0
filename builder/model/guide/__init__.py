"""Chapters of a guide: Markdown that a person wrote, with the places of all that it refers to."""
