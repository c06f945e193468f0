"""Pages without HTML: numbers become text, tables and drawings in millimetres."""
