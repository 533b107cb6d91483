"""The bending form, on which the hot stick is bent, and the card that checks its camber."""
