"""Figures in the units of who reads: what converts, into what, and with how many digits."""
