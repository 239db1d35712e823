"""A list of drums as buyers, carriers and laboratories ask for it: gross, tare, net, readings.

Of a dispatch note it is what went on it, of codes what they hold now, and without either every
drum in the house.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from honeyledger.domain.moments import Moment, day_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.notes import Note, find_note, is_note, lines_of
from honeyledger.ledger.places import DRUM, is_inside, place
from honeyledger.ledger.seals import seal_of
from honeyledger.ledger.title import HOUSE, owner_of, party_name
from honeyledger.services.dispatch_paper import TOLD, told_words
from honeyledger.services.holding import name_in, own_reading
from honeyledger.services.labelling import head_text
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

IN_DRUMS = "DP"
CAPTIONS = {"reference": "Their order", "carrier": "Carrier", **TOLD}

NO_DRUMS = Sentence("no-drums", "There is no drum to list: {what} has none.")
ONE_NOTE = Sentence(
    "one-note-or-drums", "List one dispatch note, or drums by their codes, not both at once."
)


@dataclass(frozen=True, slots=True)
class DrumRow:
    """A drum on the list: masses in grams, moisture in 0.01 %, colour in tenths of a Pfund mm.

    Args:
        supplier_lot: the supplier's own lot, of a drum bought in.
        container: what it stands in is called, "" for a one-way drum.
        gross_g: honey and container, where the tare is known.
        pending: whether its weight is still to follow.
        owner: whose it is, "" for the house's own.
        seal: the number of the seal on it; "" where none was noted.
    """

    code: str
    supplier_lot: str
    container: str
    gross_g: int | None
    tare_g: int | None
    net_g: int
    pending: bool
    moisture: int | None
    colour: int | None
    season: int
    filled: date
    owner: str
    seal: str = ""


@dataclass(frozen=True, slots=True)
class DrumList:
    """The list with what stands over it.

    Args:
        note: the dispatch note's code, "" where it is of no note.
        told: contract, vehicle, freight container and seals of the note, where they were told.
        head: the ledger's head when it was made, as on all papers.
        of: the note, else the drums that were named; "" for all in the house.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    house: str
    note: str
    customer: str
    sent: Moment | None
    told: tuple[tuple[str, str], ...]
    rows: tuple[DrumRow, ...]
    head: str
    of: str = ""
    printed: str = ""
    again: int = 0

    @property
    def net_g(self) -> int:
        """All honey on it."""
        return sum(row.net_g for row in self.rows)

    @property
    def gross_g(self) -> int | None:
        """Honey and containers, where every tare is known."""
        known = [row.gross_g for row in self.rows if row.gross_g is not None]
        return sum(known) if len(known) == len(self.rows) else None


def drum_list(view: View, texts: Sequence[str] = ()) -> DrumList:
    """The drums of one dispatch note, of these codes, or all in the house.

    Raises:
        Refusal: no such code; a note among other codes; nothing to list.
    """
    names = PlaceNames(view)
    if any(is_note(view, text) for text in texts):
        if len(texts) > 1:
            raise Refusal(ONE_NOTE, field="codes")
        return _of_note(view, find_note(view, texts[0], "codes"), names)
    if texts:
        lots = [find_lot(view, text, IN_DRUMS, "codes") for text in dict.fromkeys(texts)]
    else:
        lots = [row.lot for row in view.on_hand([DRUM]) if row.lot.kind in IN_DRUMS and row.grams]
    rows = [_row(view, lot, _now_g(view, lot), names) for lot in _once(lots)]
    if not rows:
        raise Refusal(NO_DRUMS, field="codes", what="the house")
    of = " ".join(row.code for row in rows) if texts else ""
    return replace(_listed(view, rows, None, names), of=of)


def _once(lots: Sequence[Lot]) -> list[Lot]:
    return sorted({lot.id: lot for lot in lots}.values(), key=lambda lot: lot.id)


def _of_note(view: View, note: Note, names: PlaceNames) -> DrumList:
    lines = [line for line in lines_of(view, note) if line.lot.kind in IN_DRUMS]
    if not lines:
        raise Refusal(NO_DRUMS, field="codes", what=f"dispatch note {note.code}")
    return _listed(view, [_row(view, ln.lot, ln.grams, names) for ln in lines], note, names)


def _listed(view: View, rows: list[DrumRow], note: Note | None, names: PlaceNames) -> DrumList:
    entry = view.entry(note.entry) if note else None
    return DrumList(
        house=name_in(view, "house", "Honey house"),
        note=note.code if note else "",
        customer=names[note.customer] if note else "",
        sent=entry.act.happened if entry else None,
        told=told_words(note.said, CAPTIONS) if note else (),
        rows=tuple(rows),
        head=head_text(view),
        of=note.code if note else "",
    )


def _now_g(view: View, lot: Lot) -> int:
    """What is left of it in the house, else what it was made of."""
    here = [row.grams for row in view.holdings(lot.id) if is_inside(row.place)]
    return sum(here) or lot.made_g


def _row(view: View, lot: Lot, net_g: int, names: PlaceNames) -> DrumRow:
    entry = view.entry(lot.made_by)
    assert entry is not None
    amended = view.mark(lot.code, "container")
    container = str(amended.value if amended else lot.attributes.get("container", ""))
    pending, filled = view.mark(lot.code, "pending"), view.mark(lot.code, "filled_on")
    tare = tare_of(view, lot, entry, container)
    owner = owner_of(view, lot)
    return DrumRow(
        code=lot.code,
        supplier_lot=str(lot.attributes.get("supplier_lot", "")),
        container=names.of_record(place(DRUM, container)) if container else "",
        gross_g=None if tare is None else net_g + tare,
        tare_g=tare,
        net_g=net_g,
        pending=bool(pending and pending.value),
        moisture=own_reading(view, lot.code, "moisture"),
        colour=own_reading(view, lot.code, "colour"),
        season=lot.season,
        filled=date.fromisoformat(str(filled.value)) if filled else day_of(entry.act.happened),
        owner="" if owner == HOUSE else party_name(view, owner),
        seal=seal_of(view, lot.code),
    )


def tare_of(view: View, lot: Lot, entry: Entry, container: str) -> int | None:
    """The tare of a drum: as weighed with it, as said when it came in, or its container's."""
    said: Json = entry.facts.get("said", {})
    weight = said.get("weight") if isinstance(said, Mapping) else None
    record = view.mark(place(DRUM, container), "record") if container else None
    for source in (lot.attributes, weight, record.value if record else None):
        value = source.get("tare_g") if isinstance(source, Mapping) else None
        if isinstance(value, int):
            return value
    return None
