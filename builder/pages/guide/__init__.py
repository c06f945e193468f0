"""The guide of a build: its chapters, what they lead to, and what leads back to them."""
