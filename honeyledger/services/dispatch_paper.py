"""A dispatch note as it is printed, from the entry that recorded it.

What is on the paper is what was recorded: nothing is typed for the paper alone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.moments import Moment, house_day
from honeyledger.domain.units import format_colour, format_moisture
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.notes import find_note
from honeyledger.ledger.places import DRUM, class_of, key_of
from honeyledger.services.best_before import best_before
from honeyledger.services.dispatch_notes import NoteLine, note_row
from honeyledger.services.dispatching import GROUPS
from honeyledger.services.holding import name_in, own_reading
from honeyledger.services.labelling import head_text
from honeyledger.services.papers import metric_content
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

Told = tuple[str, str]
TOLD = {
    "contract": "Contract",
    "vehicle": "Vehicle",
    "freight_container": "Freight container",
    "seals": "Seals",
    "consignor": "Consignor",
    "owner": "Owner from now on",
}


@dataclass(frozen=True, slots=True)
class NotePaperLine:
    """One lot on the paper.

    Args:
        goods: what it is: the product of jars, the container of a drum.
        detail: net content and best before of jars, readings of a drum.
        is_retail: whether it goes to people's tables as it is, so that the lot mark matters.
        gross_g: honey and container, where a whole container went and its tare is known.
    """

    code: str
    goods: str
    detail: str
    is_retail: bool
    jars: int
    gross_g: int | None
    tare_g: int | None
    net_g: int


@dataclass(frozen=True, slots=True)
class DispatchNote:
    """The paper that goes with the goods.

    Args:
        house: the honey house's name; `producer` and `place` are what stands on its jars.
        signed: who recorded it, by name; "" where nobody was named.
        more: what else was told: contract, vehicle, container, seals, in whose name it goes.
        head: the ledger's head when it was printed, as on all papers.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    code: str
    house: str
    producer: str
    place: str
    customer: str
    customer_place: str
    sent: Moment
    signed: str
    carrier: str
    reference: str
    lines: tuple[NotePaperLine, ...]
    more: tuple[Told, ...] = ()
    head: str = ""
    printed: str = ""
    again: int = 0

    @property
    def jars(self) -> int:
        """All jars on it."""
        return sum(line.jars for line in self.lines)

    @property
    def net_g(self) -> int:
        """All honey on it."""
        return sum(line.net_g for line in self.lines)

    @property
    def gross_g(self) -> int | None:
        """Honey and containers, where they are known of every line; jars are not weighed so."""
        grosses = [line.gross_g for line in self.lines]
        known = [gross for gross in grosses if gross is not None]
        return sum(known) if known and len(known) == len(grosses) else None


def note_paper(view: View, text: str) -> DispatchNote:
    """The paper of a dispatch note.

    Raises:
        Refusal: no such note, or it was reversed.
    """
    entry = view.entry(find_note(view, text, "code").entry)
    assert entry is not None
    names = PlaceNames(view)
    row = note_row(view, entry, names)
    house = _record(view, "house")
    by = entry.act.operator
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    return DispatchNote(
        code=row.code,
        house=name_in(view, "house", "Honey house"),
        producer=_text(house, "producer"),
        place=_text(house, "place"),
        customer=row.name,
        customer_place=_text(_record(view, row.customer), "place"),
        sent=entry.act.happened,
        signed=name_in(view, f"operator/{by}", by) if by else "",
        carrier=row.carrier,
        reference=row.reference,
        lines=tuple(_line(view, entry, line, names) for line in row.lines),
        more=told_words(said, TOLD),
        head=head_text(view),
    )


def told_words(said: Mapping[str, Json], captions: Mapping[str, str]) -> tuple[Told, ...]:
    """What was told with a note, of these facts, each under its caption."""
    rows = []
    for name, caption in captions.items():
        value = said.get(name, "")
        shown = str(value) if isinstance(value, str | int) else ", ".join(str(v) for v in value)
        if shown:
            rows.append((caption, shown))
    return tuple(rows)


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _text(record: Mapping[str, Json], name: str) -> str:
    return str(record.get(name, ""))


def _line(view: View, entry: Entry, line: NoteLine, names: PlaceNames) -> NotePaperLine:
    lot = view.lot_by_code(line.code)
    assert lot is not None
    is_retail = lot.kind == "J"
    where = next((p.place for p in entry.postings if p.lot == lot.id and p.grams < 0), "")
    tare = None if is_retail else _tare(view, entry, lot, where)
    return NotePaperLine(
        code=line.code,
        goods=line.name if is_retail else _goods(lot, where, names),
        detail=_jar_detail(view, lot, line.group) if is_retail else _readings(view, lot.code),
        is_retail=is_retail,
        jars=line.jars,
        gross_g=line.grams + tare if tare is not None else None,
        tare_g=tare,
        net_g=line.grams,
    )


def _goods(lot: Lot, where: str, names: PlaceNames) -> str:
    """What a container is called; one that goes by its lot's code is what its kind is."""
    kind = GROUPS[lot.kind] if lot.kind not in "DP" else "drum"
    if class_of(where) != DRUM or key_of(where) == lot.code:
        return f"{kind[:1].upper()}{kind[1:]}"
    return names.of_record(where)


def _tare(view: View, entry: Entry, lot: Lot, where: str) -> int | None:
    """The tare of a container that went whole; of a part that was drawn off there is none."""
    if lot.kind not in "DP" or _is_part(view, entry, lot):
        return None
    own = lot.attributes.get("tare_g", _record(view, where).get("tare_g"))
    return own if isinstance(own, int) else None


def _is_part(view: View, entry: Entry, lot: Lot) -> bool:
    """Whether so many grams of a lot were asked for, not all of it."""
    said = entry.facts.get("said", {})
    lines = said.get("lines", ()) if isinstance(said, Mapping) else ()
    assert isinstance(lines, Sequence)
    parts = [str(line["code"]) for line in lines if isinstance(line, Mapping) and "net_g" in line]
    return lot.id in [find_lot(view, code, reversed_too=True).id for code in parts]


def _jar_detail(view: View, lot: Lot, group: str) -> str:
    product = _record(view, group)
    parts = []
    net_g, months = lot.attributes.get("net_g"), product.get("keeps_months")
    if isinstance(net_g, int):
        parts.append(metric_content(net_g))
    made = view.entry_heads([lot.made_by])
    if isinstance(months, int) and made:
        day = house_day(made[0].happened_ms, rules_of(view).zone)
        parts.append(best_before(day, months))
    return ", ".join(f"{part[:1].lower()}{part[1:]}" for part in parts if part)


def _readings(view: View, code: str) -> str:
    parts = []
    moisture, colour = own_reading(view, code, "moisture"), own_reading(view, code, "colour")
    if moisture is not None:
        parts.append(f"moisture {format_moisture(moisture)}")
    if colour is not None:
        parts.append(f"colour {format_colour(colour)} Pfund")
    return ", ".join(parts)
