"""A toy part, to show what a new part takes: a disc of leather with a hole, behind the button."""
