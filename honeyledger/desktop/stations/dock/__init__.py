"""The dock: supers come in."""
