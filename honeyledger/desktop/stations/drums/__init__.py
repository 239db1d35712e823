"""The drum room: drums found, weighed, sampled, read, moved, held, freed, and blends planned."""
