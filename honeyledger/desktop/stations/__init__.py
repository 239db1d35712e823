"""The stations: one package each, a view and a presenter; none knows another."""
