"""The heel plate, an L of sheet metal on the frog's rear and the rear end of its bottom."""
