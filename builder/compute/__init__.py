"""Compute: model in, figures, tables and plans out."""
