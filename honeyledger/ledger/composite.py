"""Readings that belong to several lots together, and which reading of a lot the house goes by."""

from honeyledger.ledger.state import State

COMPOSITE = "composite/"
"""Before the name of a reading that belongs to several lots together."""


def latest(state: State, code: str, name: str) -> int | None:
    """A lot's latest figure: its own, else that of a composite it has part in."""
    for one in (name, f"{COMPOSITE}{name}"):
        mark = state.mark(code, one)
        if mark is not None:
            return mark.value if isinstance(mark.value, int) else None
    return None
