"""Dimensions that take several parts."""
