"""Pages become HTML, SVG, PDF, feeds and CSV: bytes, and nothing written."""
