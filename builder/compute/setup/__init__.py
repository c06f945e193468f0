"""Settings that follow from the wiring."""
