"""What is held just now, found from the holds forward: for the line, the stations, the cards."""

from collections.abc import Mapping

from honeyledger.ledger.holds import Hold, open_holds, reach_of, target_text, targets_of
from honeyledger.services.store import View


def held_lots(view: View) -> dict[int, tuple[Hold, ...]]:
    """Every lot a hold reaches, with its holds; cleared lots and what follows them are free."""
    held: dict[int, tuple[Hold, ...]] = {}
    for hold in open_holds(view):
        targets = targets_of(view, hold)
        edges = view.descent(sorted(targets)) if targets else ()
        for lot in reach_of(hold, targets, edges):
            held[lot] = (*held.get(lot, ()), hold)
    return held


def hold_sentence(view: View, hold: Hold) -> str:
    """A hold in words: what it stands on and why."""
    return f"{target_text(view, hold)}: {hold.reason}"


def name_in(view: View, subject: str, default: str = "") -> str:
    """The name in a register's record, the default where there is none."""
    mark = view.mark(subject, "record")
    value = mark.value if mark else None
    return str(value.get("name", default)) if isinstance(value, Mapping) else default


def reading(view: View, code: str, name: str) -> int | None:
    """The latest reading of a lot: hundredths of a percent, tenths of a millimetre or degree."""
    mark = view.mark(code, name)
    return mark.value if mark and isinstance(mark.value, int) else None
