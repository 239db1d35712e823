"""The season: yields, readings, losses, pace and drums, each drawn and as a table."""
