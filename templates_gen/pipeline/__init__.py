"""The whole path from a parameter file to finished files: judge, select, build, draw."""
