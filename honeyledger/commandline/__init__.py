"""The terminal's face of the honey house: every verb and every question as a command."""
