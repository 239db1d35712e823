"""What went through a vessel or a piece of equipment in a stretch of time, and where it went.

For foreign matter found later, a broken sieve, a scale that was off: all that stood or was drawn
there then, the reach margin before and after included, and forward from it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import code_in, find_named, find_record, find_vessel
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import DRUM, VESSEL, place
from honeyledger.ledger.trace_rows import ForwardTrace
from honeyledger.services.store import View
from honeyledger.services.tracing import forward_of

EQUIPMENT = "equipment"
KINDS = (VESSEL, DRUM, EQUIPMENT)

TIMES_BACKWARDS = Sentence(
    "times-backwards", "It ends before it begins. Correct one of the two times."
)
NOT_PLACED = Sentence(
    "not-placed",
    "Nobody has said what {name} is part of. Put the vessel into its record, or name it here.",
)


@dataclass(frozen=True, slots=True)
class Through:
    """What went through; `lots` are the codes of what was there, in order.

    Args:
        margin_min: the reach margin that was added on either side, minutes.
    """

    name: str
    place: str
    margin_min: int
    lots: tuple[str, ...]
    forward: ForwardTrace


def through(view: View, text: str, from_ms: int, to_ms: int) -> Through:
    """All that was in a vessel, or in what a piece of equipment is part of, between two times.

    Raises:
        Refusal: nothing is called so; the times run backwards; nobody said where it is.
    """
    if to_ms < from_ms:
        raise Refusal(TIMES_BACKWARDS, field="to")
    where = _place(view, text)
    margin_ms = rules_of(view).margin_ms
    first_ms, last_ms = from_ms - margin_ms, to_ms + margin_ms
    stays = view.stays(where, first_ms)
    events = (*view.draws(where, first_ms), *view.arrivals(where, first_ms))
    found = {stay.lot for stay in stays if stay.since_ms <= last_ms}
    found |= {event.lot for event in events if event.at_ms <= last_ms}
    lots = view.lots(found)
    starts = dict.fromkeys(sorted(found), 1.0)
    name = name_of(view, where)
    codes = tuple(lots[lot].code for lot in starts)
    return Through(name, where, margin_ms // 60_000, codes, forward_of(view, name, starts))


def _place(view: View, text: str) -> str:
    """The vessel or container meant: by itself, or as what a piece of equipment is part of."""
    code = code_in(view, text, "equipment") if text.strip() else None
    if code is None:
        subject, record = find_named(view, KINDS, text, "equipment")
    else:
        known = [kind for kind in KINDS if view.mark(place(kind, str(code)), "record")]
        subject, record = find_record(view, (known or [VESSEL])[0], str(code), "equipment")
    return subject if not subject.startswith(EQUIPMENT) else _at(view, record)


def _at(view: View, record: Mapping[str, Json]) -> str:
    at = str(record.get("at", ""))
    if not at:
        raise Refusal(NOT_PLACED, field="equipment", name=record.get("name", ""))
    return find_vessel(view, at, "equipment")
