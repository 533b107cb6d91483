"""The thumb leather, against which the frog must not run."""
