"""How large a recall would be today, what makes it so, and what would make it smaller."""
