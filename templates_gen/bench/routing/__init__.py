"""Templates for the shop's router and laser."""
