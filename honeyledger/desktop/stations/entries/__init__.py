"""What was recorded lately: looked through, reversed, amended; and how the house is kept."""
