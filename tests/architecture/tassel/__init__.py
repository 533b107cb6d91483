"""A toy part, to show what a new part takes: a disc of leather with a hole, hung on the hair."""
