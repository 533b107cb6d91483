"""What takes more than one part: the frog's travel on the stick, and everything assembled."""
