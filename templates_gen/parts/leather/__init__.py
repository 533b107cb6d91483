"""The thumb leather, which the frog must not touch."""
