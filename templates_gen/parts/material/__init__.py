"""What the bow is made of, and its lapping: they decide what it weighs and how it bends."""
