"""Weight: rows, sums, the scale beside them, balance, margins to limits."""
