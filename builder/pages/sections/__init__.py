"""One file a section of the sheet."""
