"""Every key, and what it does."""
