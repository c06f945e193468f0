"""Bytes become files in `site/`: the only stage that writes to disk."""
