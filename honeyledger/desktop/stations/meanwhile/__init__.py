"""Places whose station is still to come: what is there now, and which command does their work."""
