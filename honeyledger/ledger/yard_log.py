"""What is on record of a yard by dates: supers on it, treatments, feeding, disease, certificates.

Each is a mark on the yard under a name of its own, so that a later one does not hide an earlier.
What honey is in doubt because of them follows as holds, and where empties may not go.
"""

from collections.abc import Collection, Iterable, Mapping

from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.holds import open_holds
from honeyledger.ledger.in_run import loaded_in
from honeyledger.ledger.lookup import find_record, read_iso_day
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import YARD, class_of, place
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.state import Mark, State

SUPERS_ON, TREATED, FED, CERTIFICATE, EMPTIES = (
    "supers on/",
    "treated/",
    "fed/",
    "certificate/",
    "wet out/",
)
DISEASE = "disease"
FOR_EVER = "9999-12-31"

DAY_TO_COME = Sentence("day-to-come", "{day} is still to come. Type the day on which it was done.")
HELD_ON_ARRIVAL = Sentence(
    "held-on-arrival",
    "{code} of {yard} is on hold as it comes in: {reason}. Put the pallet aside.",
)
WERE_SUPERS_ON = Sentence(
    "were-supers-on",
    "Supers have been on {yard} since {day} by the books. Say whether they were on then.",
)
FLAGGED_EMPTIES = Sentence(
    "flagged-empties",
    "These empties come from {yard}, flagged for {disease} since {day}: they do not go to another "
    "yard. Keep them apart, or have a named person say why they go.",
)
WENT_FLAGGED = Sentence(
    "went-flagged", "Empties of {yard} went to {to} although flagged for {disease}: {why}."
)
KEEP_APART = Sentence(
    "keep-apart", "These empties come from {yard}, flagged for {disease}: keep them apart."
)
NO_CERTIFICATE = Sentence(
    "no-certificate",
    "{yard} needs a certificate to move its supers, and none is on record for {day}. Follow your "
    "local code.",
)


def told(mark: Mark, name: str) -> str:
    """A word of a mark's value, or ""."""
    return str(mark.value.get(name, "")) if isinstance(mark.value, Mapping) else ""


def noted(state: State, yard: str, under: str) -> list[Mark]:
    """All marks of a yard whose names begin so, in the order they were written."""
    marks = [mark for mark in state.marks(yard) if mark.name.startswith(under)]
    return sorted(marks, key=lambda mark: int(mark.name.rpartition("/")[2]))


def past_day(b: Booking, text: str, field: str) -> str:
    """A day on which something was done: that of the entry where none is said, never later.

    Raises:
        Refusal: it is no day, or still to come.
    """
    today = b.day.isoformat()
    day = read_iso_day(text, field) or today
    if day > today:
        raise Refusal(DAY_TO_COME, field=field, day=say_day(day))
    return day


def supers_on_since(state: State, yard: str, day: str) -> str:
    """The day since which supers are on a yard by the books on this day; "" where none are."""
    for mark in reversed(noted(state, yard, SUPERS_ON)):
        since = told(mark, "day")
        if since <= day:
            count = int(told(mark, "count") or 0)
            pulled = [str(lot.attributes.get("pulled", "")) for lot in state.source_lots(yard)]
            counts = [int(str(lot.attributes.get("count", 0))) for lot in state.source_lots(yard)]
            off = sum(n for at, n in zip(pulled, counts, strict=True) if since <= at <= day)
            return since if off < count else ""
    return ""


def were_on(b: Booking, yard: str, day: str, said: bool | None) -> bool:
    """Whether supers were on a yard on a day: as said, else nobody has put any there.

    Raises:
        Refusal: nobody said, and by the books they were.
    """
    if said is not None:
        return said
    since = supers_on_since(b.state, yard, day)
    if since:
        raise Refusal(
            WERE_SUPERS_ON, field="supers_on", yard=name_of(b.state, yard), day=say_day(since)
        )
    return False


def read_yards(state: State, texts: Iterable[str]) -> None:
    """Read the records of yards in one question, by code, before `find_record` asks for each.

    With several stations, or a server, a truck of fifteen yards would wait fifteen times. What no
    store can keep is left to `find_record`, which refuses it.
    """
    asked = {text.strip() for text in texts if text.isprintable()}
    state.marked_on("record", {place(YARD, text) for text in asked})


def note_arrival(b: Booking, yard: str, code: str, pulled: str) -> None:
    """What a person on the dock has to know of a pull's yard on the day it was pulled."""
    for hold in open_holds(b.state):
        if hold.target == yard and hold.first_day <= pulled <= (hold.last_day or FOR_EVER):
            name = name_of(b.state, yard)
            b.note(HELD_ON_ARRIVAL, code=code, yard=name, reason=hold.reason)
    record = b.state.mark(yard, "record")
    if record and told(record, "certified") == "1" and not _certified(b.state, yard, pulled):
        b.note(NO_CERTIFICATE, yard=name_of(b.state, yard), day=say_day(pulled))


def _certified(state: State, yard: str, day: str) -> bool:
    return any(
        told(mark, "from") <= day <= (told(mark, "to") or FOR_EVER)
        for mark in noted(state, yard, CERTIFICATE)
    )


def flag_of(state: State, yard: str) -> Mark | None:
    """The disease a yard is flagged for now, if any."""
    mark = state.mark(yard, DISEASE)
    return mark if mark and told(mark, "name") and not told(mark, "until") else None


def yards_of(state: State, lot_ids: Collection[int]) -> list[str]:
    """The yards that pulls are from, or were booked from, by code."""
    lots = state.lots(lot_ids).values()
    places = {place for lot in lots for place in sources_of(state, lot)}
    return sorted(place for place in places if class_of(place) == YARD)


def note_empties_go(
    b: Booking, pulls: Collection[int] | None, to: str, count: int, why: str
) -> None:
    """Where empties went is kept with their yards; the pulls are those loaded where none is said.

    Empties of a yard flagged for a disease go to no other yard, unless a named person says why.

    Raises:
        Refusal: they would, and nobody said why.
    """
    for yard in yards_of(b.state, loaded_in(b.state, b.act.run) if pulls is None else pulls):
        if flag := flag_of(b.state, yard):
            _ask_flagged(b, yard, flag, to, why)
        if to:
            value = {"to": to, "count": count, "run": b.act.run, "day": b.day.isoformat()}
            b.mark(yard, f"{EMPTIES}{b.entry_id}", value)


def _ask_flagged(b: Booking, yard: str, flag: Mark, to: str, why: str) -> None:
    shown = {"yard": name_of(b.state, yard), "disease": told(flag, "name")}
    other = _yard_called(b.state, to)
    if other in ("", yard):
        b.note(KEEP_APART, **shown)
    elif why.strip() and b.act.operator:
        b.note(WENT_FLAGGED, to=name_of(b.state, other), why=why.strip(), **shown)
    else:
        raise Refusal(FLAGGED_EMPTIES, field="to", day=say_day(told(flag, "since")), **shown)


def _yard_called(state: State, text: str) -> str:
    """The place of the yard a text names; "" where it names something else, such as a stack."""
    try:
        return find_record(state, YARD, text, "to")[0]
    except Refusal:
        return ""


def where_empties_went(state: State, yard: str, since: str) -> list[str]:
    """Where a yard's empties went on or after a day, as it was said."""
    rows = [mark for mark in noted(state, yard, EMPTIES) if told(mark, "day") >= since]
    return list(dict.fromkeys(told(mark, "to") or "nobody said where" for mark in rows))
