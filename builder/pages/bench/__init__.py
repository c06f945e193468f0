"""The page at the bench: one step a screen, readings judged as they are typed."""
