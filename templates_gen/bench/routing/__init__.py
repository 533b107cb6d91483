"""Routing templates for the shop's cutters."""
