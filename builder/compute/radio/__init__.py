"""Radio: channels and links."""
