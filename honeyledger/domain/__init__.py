"""The trade's rules and numbers; standard library only, no clock, no files, no randomness."""
