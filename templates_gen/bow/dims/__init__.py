"""Dimensions that take more than one part."""
