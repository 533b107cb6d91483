"""The screw, which draws the eyelet and with it the frog along the stick."""
