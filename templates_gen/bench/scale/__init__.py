"""Scale a pattern to another family, or move one value and all that depends on it."""
