"""Flight: air, bench rows, hover, time in the air, the log."""
