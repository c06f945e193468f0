"""Data files: JSON, CSV, feeds, schemas."""
