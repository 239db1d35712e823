"""From a machine without a house to one that is open."""
