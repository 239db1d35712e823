"""Figures of the trade, reckoned without a house."""
