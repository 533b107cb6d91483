"""The frog: the ebony block that carries the rear end of the hair."""
