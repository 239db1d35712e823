"""Heat: a fact of a lot, which everything it goes into has in its reach."""

from collections.abc import Collection

from honeyledger.ledger.state import State

HEATED = "heated"
"""The mark on a lot's code, with how hot it was where that was read."""


def heated_among(state: State, codes: Collection[str]) -> tuple[str, ...]:
    """Which of these lots were heated, by code."""
    marks = state.marked_on(HEATED, codes)
    return tuple(sorted(code for code, mark in marks.items() if mark.value))
