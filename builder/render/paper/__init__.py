"""The bench sheet as PDF, and the card as a picture."""
