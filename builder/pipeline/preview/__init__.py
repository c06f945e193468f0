"""The preview: what was read last, what was made of it, and what each address shows."""
