"""Dispatch: what goes to customers, what comes back, what is thrown away."""
