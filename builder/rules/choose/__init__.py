"""Which swaps of shelf parts keep every rule, and which of them nothing beats in weight, price and time."""
