"""The materials of the bow and its lapping, which decide its weight and stiffness."""
