"""The slide: the pearl-faced dovetailed strip that closes the hair mortise."""
