"""The package's version, stated once."""

VERSION = "0.1.0"
