"""The extraction floor: the run in hand, what goes in and comes out, and signing it."""
