"""Weigh a bow before it is made."""
