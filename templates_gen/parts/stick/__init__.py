"""The stick's octagonal handle, on which the frog runs."""
