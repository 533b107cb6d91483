"""Calibrate a printer."""
