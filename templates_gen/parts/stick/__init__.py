"""The stick; the frog runs on its octagonal handle."""
