"""The ferrule, a D-shaped ring (an arch soldered to a flat plate), and its spread wedge."""
