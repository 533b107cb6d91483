"""The eyelet, which carries the frog along the screw."""
