"""The card of what is no lot: a pallet, a yard, a vessel, a container, a run, a note."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import LOT_LETTERS, Code, JarCode
from honeyledger.domain.moments import Moment, format_moment, house_day, moment_at, say_day
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.empties import is_out
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import read_code, refuse_unknown
from honeyledger.ledger.notes import NOTE_REVERSED, find_note
from honeyledger.ledger.packs import NOUNS as PACKS
from honeyledger.ledger.packs import Content, jars_in, left_with, outer_of
from honeyledger.ledger.places import DRUM, FED, PALLET, VESSEL, YARD, class_of, place
from honeyledger.ledger.units import unit_number
from honeyledger.services.cards import LotCard, lot_card
from honeyledger.services.claims import product_of
from honeyledger.services.dispatch_notes import NoteLine, note_row
from honeyledger.services.dispatch_paper import TOLD, told_words
from honeyledger.services.dock import yard_season
from honeyledger.services.floor import run_row
from honeyledger.services.histories import Told, history_of
from honeyledger.services.holding import held_lots, hold_sentence, name_in, reading
from honeyledger.services.rooms import where_it_stands
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.yard_days import PULLED, yard_days

_LATEST = 12  # lots whose entries a card tells of
_MASSES = ("capacity_g", "tare_g", "usual_g", "limit_g")
_UNSHOWN = ("name", "latitude", "longitude")


@dataclass(frozen=True, slots=True)
class StandsThere:
    """A lot that stands at the place: grams, supers or jars, and since when."""

    code: str
    grams: int
    pieces: int
    since: Moment


@dataclass(frozen=True, slots=True)
class PlaceCard:
    """Everything a person wants to know of a place or a run.

    Args:
        noun: what it is; `name` is what it is called, "" where it has only its code.
        moisture: of the wettest lot there, hundredths of a percent.
        facts: the register's, and the season's of a yard, label by label.
        prints: whether it has a label.
    """

    code: str
    noun: str
    name: str
    standing: tuple[StandsThere, ...]
    moisture: int | None
    holds: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    history: tuple[Told, ...]
    prints: bool

    @property
    def grams(self) -> int:
        """All that stands there."""
        return sum(row.grams for row in self.standing)

    @property
    def pieces(self) -> int:
        """All supers or jars there."""
        return sum(row.pieces for row in self.standing)


_LOWER = {
    "Contract": phrase("contract"),
    "Vehicle": phrase("vehicle"),
    "Freight container": phrase("freight container"),
    "Seals": phrase("seals"),
    "Consignor": phrase("consignor"),
    "Owner from now on": phrase("owner from now on"),
}


def any_card(view: View, text: str, now_ms: int, unit: MassUnit = "kg") -> LotCard | PlaceCard:
    """The card of whatever a code names.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    code = read_code(view, text, "code")
    if isinstance(code, JarCode) or code.letter in LOT_LETTERS:
        return lot_card(view, text, unit)
    if not view.is_given(str(code)):
        raise refuse_unknown(view, text, "code")
    if code.letter == "G":
        return _place_card(view, code, place(PALLET, str(code)), unit)
    if code.letter == "Y":
        return _yard_card(view, code, now_ms, unit)
    if code.letter == "E":
        kinds = [kind for kind in (VESSEL, DRUM) if _record(view, place(kind, str(code)))]
        return _place_card(view, code, place(kinds[0] if kinds else VESSEL, str(code)), unit)
    if code.letter == "R":
        return _run_card(view, code)
    if code.letter == "N":
        return _note_card(view, code, unit)
    if code.letter in PACKS:
        return _pack_card(view, code)
    return PlaceCard(str(code), code.noun, "", (), None, (), (), (), False)


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _facts(record: Mapping[str, Json], names: PlaceNames, unit: MassUnit) -> list[tuple[str, str]]:
    """A register's facts in words."""
    rows = []
    for key, value in record.items():
        if key in _UNSHOWN or value == "":
            continue
        shown = str(value)
        if key in _MASSES and isinstance(value, int):
            shown = format_mass(value, unit)
        if key == "fed_by":
            shown = names.of_record(place(VESSEL, shown))
        rows.append((key.removesuffix("_g").replace("_", " "), shown))
    return rows


def _place_card(view: View, code: Code, where: str, unit: MassUnit) -> PlaceCard:
    zone = rules_of(view).zone
    standing = view.standing(where)
    held = held_lots(view)
    holds = {hold.subject: hold for row in standing for hold in held.get(row.lot.id, ())}
    moistures = [reading(view, row.lot.code, "moisture") for row in standing]
    names = PlaceNames(view)
    record = _record(view, where)
    facts = _facts(record, names, unit)
    condition = view.mark(where, "condition")
    if condition is not None:
        facts.append((phrase("condition"), str(condition.value)))
    facts += where_it_stands(view, str(code), names)
    if (out := is_out(view, where) if class_of(where) == DRUM else None) is not None:
        since = format_moment(moment_at(out.since_ms, zone))
        words = phrase(
            "{customer}, since {since} on {note}",
            customer=names[out.customer],
            since=since,
            note=out.note,
        )
        facts.append((phrase("with"), words))
    facts += [(phrase("yard"), name) for name in _yards(standing_lots(view, where), names)]
    return PlaceCard(
        code=str(code),
        noun=_noun(code, where),
        name=str(record.get("name", "")),
        standing=tuple(
            StandsThere(row.lot.code, row.grams, row.pieces, moment_at(row.since_ms, zone))
            for row in standing
        ),
        moisture=max((one for one in moistures if one is not None), default=None),
        holds=tuple(sorted(hold_sentence(view, hold) for hold in holds.values())),
        facts=tuple(facts),
        history=_history(view, where, names, unit),
        prints=code.letter == "E" or bool(standing),
    )


def _noun(code: Code, where: str) -> str:
    return {"drum": phrase("container"), "vessel": phrase("vessel")}.get(
        where.partition("/")[0], code.noun
    )


def standing_lots(view: View, where: str) -> list[Lot]:
    """The lots at a place, by id."""
    return [row.lot for row in view.standing(where)]


def _yards(lots: Sequence[Lot], names: PlaceNames) -> list[str]:
    """Names of the yards whose pulls stand there."""
    codes = dict.fromkeys(str(lot.attributes.get(phrase("yard"), "")) for lot in lots)
    return [names.of_record(place(YARD, code)) for code in codes if code]


def _history(view: View, where: str, names: PlaceNames, unit: MassUnit) -> tuple[Told, ...]:
    """What was done at the place, told from the side of the lots that stood there."""
    lots = sorted({stay.lot for stay in view.stays(where, 0)})[-_LATEST:]
    told: dict[int, Told] = {}
    for lot in view.lots(lots).values():
        entries = [
            entry
            for entry in view.history(lot.id)
            if any(posting.place == where for posting in entry.postings)
            or [where] in rows_of(entry, "touched")
        ]
        for one in history_of(view, lot, entries, names, unit):
            told.setdefault(one.entry, one)
    return tuple(sorted(told.values(), key=lambda one: (one.happened.at_ms, one.entry)))


def _yard_card(view: View, code: Code, now_ms: int, unit: MassUnit) -> PlaceCard:
    where = place(YARD, str(code))
    names = PlaceNames(view)
    season = yard_season(view, str(code), now_ms)
    record = _record(view, where)
    facts = _facts(record, names, unit)
    facts += [
        (phrase("pulls this season"), format_number(season.pulls)),
        (phrase("supers this season"), format_number(season.supers)),
        (phrase("honey this season"), f"≈ {format_mass(season.grams, unit, 0)}"),
    ]
    bees = place(FED, str(code))
    given = {row.lot: row.grams for row in view.held_at(FED) if row.place == bees}
    facts += [
        (
            phrase("fed to its bees"),
            phrase("{mass} of {what}", mass=format_mass(given[lot.id], unit), what=lot.code),
        )
        for lot in view.lots(given).values()
    ]
    told: list[Told] = []
    for lot in view.source_lots(where)[-_LATEST:]:
        entry = view.entry(lot.made_by)
        if entry is not None:
            told += history_of(view, lot, [entry], names, unit)
    told += _noted(view, code, unit)
    return PlaceCard(
        code=str(code),
        noun=phrase("yard"),
        name=str(record.get("name", "")),
        standing=(),
        moisture=season.moisture,
        holds=(),
        facts=tuple(facts),
        history=tuple(sorted(told, key=lambda one: (one.happened.at_ms, one.entry))),
        prints=True,
    )


def _noted(view: View, code: Code, unit: MassUnit) -> list[Told]:
    """What was written down of a yard beside its pulls: supers, treatments, feed, disease, papers.

    The day it is about is said where that is not the day it was written down for.
    """
    zone = rules_of(view).zone
    told = []
    for one in yard_days(view, str(code), unit).days:
        entry = view.entry(one.entry)
        if one.kind == PULLED or entry is None:
            continue
        happened, by = entry.act.happened, entry.act.operator
        is_then = one.day in ("", house_day(happened.at_ms, zone).isoformat())
        sentence = one.sentence if is_then else joined((say_day(one.day), one.sentence), ": ")
        name = name_in(view, f"operator/{by}", by) if by else ""
        told.append(Told(entry.id, happened, one.kind, sentence, name, 0))
    return told


def _run_card(view: View, code: Code) -> PlaceCard:
    zone = rules_of(view).zone
    row = run_row(view, str(code))
    facts = []
    if row is not None:
        closed = format_moment(moment_at(row.closed_ms, zone)) if row.closed_ms else ""
        facts = [
            (phrase("line"), row.line_name),
            (phrase("opened"), format_moment(moment_at(row.opened_ms, zone))),
            (phrase("closed"), closed or phrase("open")),
        ]
    return PlaceCard(str(code), phrase("run"), "", (), None, (), tuple(facts), (), False)


def _note_card(view: View, code: Code, unit: MassUnit) -> PlaceCard:
    """A dispatch note: who got it, when, on what, and every lot on it."""
    try:
        note = find_note(view, str(code), "code")
    except Refusal as refusal:
        if refusal.key != NOTE_REVERSED.key:
            raise
        return PlaceCard(
            str(code),
            code.noun,
            "",
            (),
            None,
            (),
            ((phrase("state"), phrase("reversed")),),
            (),
            False,
        )
    entry = view.entry(note.entry)
    assert entry is not None
    row = note_row(view, entry, PlaceNames(view))
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    facts = [
        (phrase("to"), row.name),
        (phrase("sent"), format_moment(row.happened)),
        (phrase("their order"), row.reference),
        (phrase("carrier"), row.carrier),
        *(
            (_LOWER.get(caption, caption.lower()), words)
            for caption, words in told_words(said, TOLD)
        ),
        (phrase("net"), format_mass(row.grams, unit)),
        *((line.code, _line_words(line, unit)) for line in row.lines),
    ]
    shown = tuple((label, words) for label, words in facts if words)
    return PlaceCard(str(code), code.noun, "", (), None, (), shown, (), True)


def _line_words(line: NoteLine, unit: MassUnit) -> str:
    if line.jars:
        return phrase("{name}, {n} jars", name=line.name, n=format_number(line.jars))
    return f"{line.name}, {format_mass(line.grams, unit)}"


def _pack_card(view: View, code: Code) -> PlaceCard:
    """A case or shipping pallet: its number, where it stands on, and what is or was in it."""
    there = jars_in(view, str(code))
    rows = there or left_with(view, str(code))
    state = "" if there else phrase("left the house") if rows else phrase("empty")
    facts = [
        (phrase("state"), state),
        (phrase("number (SSCC)"), unit_number(view, str(code))),
        (phrase("on pallet"), outer_of(view, str(code))),
        *((row.code, _jars_words(view, row)) for row in rows),
    ]
    shown = tuple((label, words) for label, words in facts if words)
    return PlaceCard(str(code), code.noun, "", (), None, (), shown, (), bool(rows))


def _jars_words(view: View, row: Content) -> str:
    lot = view.lot_by_code(row.code)
    name = str(product_of(view, lot).get("name", "")) if lot else ""
    return phrase("{name}, {n} jars", name=name or row.code, n=format_number(row.pieces))
