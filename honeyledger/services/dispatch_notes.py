"""Dispatch notes as they were recorded: what went where, and what each customer had lately."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.places import CUSTOMER, FARM_GATE, GATE, class_of, is_inside
from honeyledger.services.dispatching import group_name, group_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

NOTES_SHOWN = 60
SENT, REVERSED = "sent", "reversed"


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A lot on a note: the group it was asked for as, jars where it is counted so, grams."""

    code: str
    kind: str
    group: str
    name: str
    jars: int
    grams: int


@dataclass(frozen=True, slots=True)
class NoteRow:
    """A dispatch note that was recorded.

    Args:
        entry: the entry's number.
        customer: the place it went to; `name` is what people call it.
        state: "sent" or "reversed".
    """

    code: str
    entry: int
    customer: str
    name: str
    state: str
    happened: Moment
    reference: str
    carrier: str
    lines: tuple[NoteLine, ...]

    @property
    def jars(self) -> int:
        """All jars on it."""
        return sum(line.jars for line in self.lines)

    @property
    def grams(self) -> int:
        """All honey on it, net."""
        return sum(line.grams for line in self.lines)


@dataclass(frozen=True, slots=True)
class Lately:
    """What one customer had since some day, returns taken off.

    Args:
        last_ms: when the last note was.
        asked: what the last note had, as one would ask for it again: group and count.
    """

    name: str
    notes: int
    jars: int
    grams: int
    last_ms: int
    asked: tuple[tuple[str, int], ...] = field(default=())


def note_rows(view: View, last: int = NOTES_SHOWN) -> tuple[NoteRow, ...]:
    """The newest notes, newest first, reversed ones too."""
    return _rows(view, reversed(view.entries(["dispatch"], last=last)))


def _rows(view: View, entries: Iterable[Entry]) -> tuple[NoteRow, ...]:
    names = PlaceNames(view)
    return tuple(note_row(view, entry, names) for entry in entries)


def note_row(view: View, entry: Entry, names: PlaceNames) -> NoteRow:
    """One note from its entry."""
    gone = [row for row in entry.postings if row.grams > 0 and not is_inside(row.place)]
    where = gone[0].place if gone else ""
    jars = pieces_to(entry, where)
    lots = view.lots({row.lot for row in gone})
    lines = []
    for row in gone:
        lot = lots[row.lot]
        group = group_of(view, lot)
        count = jars.get(lot.id, 0) if lot.kind == "J" else 0
        name = group_name(group, names)
        lines.append(NoteLine(lot.code, lot.kind, group, name, count, row.grams))
    return NoteRow(
        code=given_code(entry),
        entry=entry.id,
        customer=where,
        name=names[where] if where else "",
        state=REVERSED if view.reversed_by(entry.id) else SENT,
        happened=entry.act.happened,
        reference=said_text(entry, "reference"),
        carrier=said_text(entry, "carrier"),
        lines=tuple(lines),
    )


def given_code(entry: Entry) -> str:
    """The code of the note an entry gave, "" where it gave none."""
    return next((str(row[0]) for row in rows_of(entry, "codes")), "")


def said_text(entry: Entry, name: str) -> str:
    """A text that was said with an entry, "" where it was not."""
    said: Json = entry.facts.get("said", {})
    return str(said.get(name, "")) if isinstance(said, Mapping) else ""


def pieces_to(entry: Entry, where: str) -> dict[int, int]:
    """Jars that came to a place by an entry, by lot."""
    counts: dict[int, int] = {}
    for there, lot, count in rows_of(entry, "pieces"):
        if there == where and isinstance(lot, int) and isinstance(count, int):
            counts[lot] = counts.get(lot, 0) + count
    return counts


def lately(view: View, since_ms: int) -> Mapping[str, Lately]:
    """What each customer had since then, by what names the customer to the ledger."""
    entries = [
        entry
        for entry in view.entries(["dispatch", "take back"], since_ms)
        if not view.reversed_by(entry.id)
    ]
    sent = _rows(view, [entry for entry in entries if entry.kind == "dispatch"])
    rows: dict[str, list[NoteRow]] = {}
    for row in sent:
        rows.setdefault(customer_of(row.customer), []).append(row)
    back = _back([entry for entry in entries if entry.kind == "take back"])
    found = {}
    for customer, notes in rows.items():
        last = max(notes, key=lambda row: (row.happened.at_ms, row.entry))
        jars, grams = back.get(customer, (0, 0))
        found[customer] = Lately(
            name=last.name if customer != FARM_GATE else customer,
            notes=len(notes),
            jars=sum(row.jars for row in notes) - jars,
            grams=sum(row.grams for row in notes) - grams,
            last_ms=last.happened.at_ms,
            asked=_asked(last),
        )
    return found


def customer_of(where: str) -> str:
    """The key of a customer's place; all days of the farm gate are one customer."""
    return FARM_GATE if class_of(where) == GATE else where.partition("/")[2]


def _back(entries: Sequence[Entry]) -> dict[str, tuple[int, int]]:
    """Jars and grams that came back, by customer."""
    sums: dict[str, tuple[int, int]] = {}
    for entry in entries:
        for row in entry.postings:
            if row.grams < 0 and class_of(row.place) in (CUSTOMER, GATE):
                jars, grams = sums.get(customer_of(row.place), (0, 0))
                jars -= pieces_to(entry, row.place).get(row.lot, 0)
                sums[customer_of(row.place)] = (jars, grams - row.grams)
    return sums


def _asked(note: NoteRow) -> tuple[tuple[str, int], ...]:
    """A note as it would be asked for again: jars of a product, drums by number."""
    counts: dict[str, int] = {}
    for line in note.lines:
        counts[line.group] = counts.get(line.group, 0) + (line.jars or 1)
    return tuple(counts.items())
