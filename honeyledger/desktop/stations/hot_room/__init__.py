"""The hot room: what waits, how long and how wet, its air, and the order of the next run."""
