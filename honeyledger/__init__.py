"""Honeyledger: the ledger of a honey house, from the supers on the dock to the jar."""
