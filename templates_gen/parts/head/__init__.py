"""The head, which carries the front end of the hair."""
