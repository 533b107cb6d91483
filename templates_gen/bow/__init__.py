"""The whole bow: dimensions, rules and sheets that take several parts."""
