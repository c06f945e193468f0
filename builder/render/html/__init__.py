"""Blocks and drawings as HTML and SVG."""
