"""What a widget shows, as plain frozen values, and where each part of it goes."""
