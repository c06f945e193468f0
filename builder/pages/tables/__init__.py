"""Tables that more than one page shows."""
