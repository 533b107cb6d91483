"""Write the index page of a set: one self-contained HTML file."""
