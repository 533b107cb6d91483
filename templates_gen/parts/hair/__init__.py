"""The hair: its ribbon decides how wide everything else is."""
