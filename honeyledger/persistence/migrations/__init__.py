"""How houses written by older versions of this program are brought up to date."""
