"""The ferrule, a D-shaped ring: an arch soldered to a flat plate, and the hair's spread wedge."""
