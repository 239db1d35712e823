"""Questions and compositions for the faces, over one port, the store."""
