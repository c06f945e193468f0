"""What a publish keeps for the next one, and what of it is believed."""
