"""Who is on which shift, by the house's list: those on now come first where one chooses people."""

from collections.abc import Mapping
from dataclasses import replace

from honeyledger.domain.moments import format_iso, moment_at
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json
from honeyledger.services.dock import Choice, choices
from honeyledger.services.store import View

_CLOCK = slice(11, 16)  # hours and minutes in an ISO moment


def people_now(view: View, now_ms: int) -> tuple[Choice, ...]:
    """Everybody who works here: those on a shift now first, each with the shift's name."""
    now = shifts_now(view, now_ms)
    people = [
        replace(one, detail=now.get(one.code, one.detail)) for one in choices(view, "operator")
    ]
    return tuple(sorted(people, key=lambda one: one.code not in now))


def shifts_now(view: View, now_ms: int) -> dict[str, str]:
    """By the code of each person on a shift now, the shift's name."""
    clock = format_iso(moment_at(now_ms, rules_of(view).zone))[_CLOCK]
    found: dict[str, str] = {}
    for mark in view.marked("record", "shift/"):
        record = mark.value
        if isinstance(record, Mapping) and _is_on(record, clock):
            for code in str(record.get("people", "")).split(", "):
                found.setdefault(code, str(record.get("name", "")))
    found.pop("", None)
    return found


def shift_names(view: View) -> tuple[str, ...]:
    """All shifts by name: a crew may be one of them."""
    return tuple(one.name for one in choices(view, "shift"))


def _is_on(record: Mapping[str, Json], clock: str) -> bool:
    """Whether a shift is on at a time of day; one may go over midnight."""
    begins, ends = str(record.get("begins", "")), str(record.get("ends", ""))
    if not begins or not ends:
        return False
    if begins < ends:
        return begins <= clock < ends
    return clock >= begins or clock < ends
