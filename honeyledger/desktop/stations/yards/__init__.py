"""The yards: their records, what is given to them, what they yield, where they lie."""
