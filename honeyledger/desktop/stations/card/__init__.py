"""The card of a lot, beside whatever station is open."""
