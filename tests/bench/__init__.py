"""The bench: seeded seasons through the real ledger, and the floor they are timed against."""
