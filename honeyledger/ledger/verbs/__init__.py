"""One module a station: frozen facts classes and the pure functions that book them."""
