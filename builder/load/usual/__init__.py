"""What is taken for a contact where nobody says it: its role by its print, its size by its kind."""
