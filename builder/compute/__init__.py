"""The model becomes figures, tables and plans. Returns results, never findings."""
