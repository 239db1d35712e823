"""The kit the stations stand on: widgets that draw plain values and say what was done."""
