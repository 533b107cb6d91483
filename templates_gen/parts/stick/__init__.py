"""The stick, on whose octagonal handle the frog runs."""
