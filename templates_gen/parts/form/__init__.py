"""The bending form, over which the hot stick is bent, and the card that tests its camber."""
