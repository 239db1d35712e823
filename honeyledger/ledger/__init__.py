"""What happened: entries, lots, postings, origins, and what follows from them."""
