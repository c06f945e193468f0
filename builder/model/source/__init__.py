"""What a person writes, field by field."""
