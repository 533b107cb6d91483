"""Lay out a bow and cut it: templates at true size, checked against the stick."""
