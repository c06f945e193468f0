"""The bench sheet, arranged for paper."""
