"""One module a revision, each leading on from the one before."""
