"""Plans found by a solver, behind the port of `services/planning.py`: no Qt, no SQL."""
