"""What the house checks on a schedule."""
