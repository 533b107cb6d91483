"""The button, which turns the screw and bears on the butt."""
