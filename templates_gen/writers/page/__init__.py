"""The index page of a set: one HTML file that needs nothing else."""
