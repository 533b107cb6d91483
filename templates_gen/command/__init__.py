"""The command: one module for each verb, and how it prints."""
