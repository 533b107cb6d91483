"""What a maker does with a pattern: carry it to another instrument."""
