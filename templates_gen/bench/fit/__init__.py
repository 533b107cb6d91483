"""Fit a pattern to the stick in hand."""
