"""From the dock's page to what its table, figures and slot show."""

from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import note_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.models.days import clock_time, format_day
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.dock.typed import Typed, yard_in
from honeyledger.domain.moments import moment_at
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
)
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import PALLET, class_of, key_of
from honeyledger.services.dock import Arrival, YardSeason
from honeyledger.services.dock_page import DockPage
from honeyledger.services.house import Recorded, notes_of

_MARKS = {
    "ready": Mark.READY,
    "dry first": Mark.WARNING,
    "green": Mark.WARNING,
    "count off": Mark.WARNING,
}
# From these widths on there is room for the count and the crew of a pull sheet, and for all of it.
WIDE, WIDEST = 960, 1280
# What a note of the ledger is to a person: something to act on, or something to know.
_NOTE_MARKS = {
    "dry-first": Mark.WARNING,
    "too-wet-to-sell": Mark.WARNING,
    "green": Mark.WARNING,
    "count-differs": Mark.WARNING,
}


def _tr(text: str) -> str:
    return QCoreApplication.translate("dock", text)


@dataclass(frozen=True, slots=True)
class ArrivalRow:
    """A pull that arrived, as the table shows it."""

    key: str
    pallet: str
    mark: Mark
    state: str
    reason: str
    yard: str
    at_ms: int
    time: str
    supers: int
    grams: int
    honey: str
    moisture: str
    sheet: str
    crew: str
    box: str
    pulled: str


@dataclass(frozen=True, slots=True)
class Received:
    """A pallet that was recorded: its tag, its first pull, and what is said of it."""

    tag: str
    pull: str
    message: Message


@dataclass(frozen=True, slots=True)
class Figure:
    """A key figure and what it is."""

    figure: str
    meaning: str


def arrival_columns(unit: MassUnit) -> tuple[Column[ArrivalRow], ...]:
    """The columns of the arrivals; the numbers give way first where there is no room."""
    return (
        Column(
            "code",
            _tr("Pallet"),
            lambda row: row.pallet,
            ColumnKind.CODE,
            sort_key=lambda row: row.pallet,
        ),
        Column(
            "state",
            _tr("State"),
            lambda row: row.state,
            ColumnKind.STATE,
            mark=lambda row: row.mark,
            sort_key=lambda row: row.state,
        ),
        Column(
            "yard",
            _tr("Yard"),
            lambda row: row.yard,
            ColumnKind.NAME,
            note=lambda row: row.reason,
            sort_key=lambda row: row.yard.casefold(),
        ),
        *_sheet_columns(),
        Column(
            "time",
            _tr("Time"),
            lambda row: row.time,
            ColumnKind.NUMBER,
            from_width=600,
            sort_key=lambda row: row.at_ms,
        ),
        Column(
            "supers",
            _tr("Supers"),
            lambda row: str(row.supers),
            ColumnKind.NUMBER,
            sort_key=lambda row: row.supers,
        ),
        Column(
            "sheet",
            _tr("On sheet"),
            lambda row: row.sheet,
            ColumnKind.NUMBER,
            from_width=WIDE,
            sort_key=lambda row: int(row.sheet) if row.sheet else None,
        ),
        Column(
            "honey",
            _tr("Honey"),
            lambda row: row.honey,
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda _row: True,
            from_width=600,
            sort_key=lambda row: row.grams,
        ),
        Column(
            "moisture",
            _tr("Moist."),
            lambda row: row.moisture,
            ColumnKind.NUMBER,
            unit="%",
            from_width=600,
            sort_key=lambda row: float(row.moisture) if row.moisture else None,
        ),
    )


def _sheet_columns() -> tuple[Column[ArrivalRow], ...]:
    """What else the pull sheet says, where there is room for it."""
    return (
        Column("crew", _tr("Crew"), lambda row: row.crew, from_width=WIDE),
        Column("pulled", _tr("Pulled"), lambda row: row.pulled, from_width=WIDEST),
        Column("box", _tr("Box"), lambda row: row.box, from_width=WIDEST),
    )


def arrival_rows(page: DockPage) -> list[ArrivalRow]:
    """Today's arrivals, newest first."""
    return [_arrival_row(row, page.unit, page.zone) for row in page.day.arrivals]


def _arrival_row(row: Arrival, unit: MassUnit, zone: str) -> ArrivalRow:
    return ArrivalRow(
        key=row.pull,
        pallet=row.pallet,
        mark=_MARKS.get(row.state, Mark.HOLD),
        state=_tr(row.state),
        reason=say(row.reason),
        yard=row.yard,
        at_ms=row.at_ms,
        time=clock_time(moment_at(row.at_ms, zone)),
        supers=row.supers,
        grams=row.grams,
        honey=whole_mass(row.grams, unit),
        moisture=_percent(row.moisture),
        sheet=format_number(row.sheet) if row.sheet else "",
        crew=row.crew,
        box=row.box,
        pulled=format_day(date.fromisoformat(row.pulled)) if row.pulled else "",
    )


def whole_mass(grams: int, unit: MassUnit) -> str:
    """A mass in whole units, without the unit, which stands in the head."""
    return format_mass(grams, unit, 0).removesuffix(f" {unit}")


def _percent(moisture: int | None) -> str:
    return "" if moisture is None else format_moisture(moisture).removesuffix(" %")


def totals(page: DockPage) -> dict[str, Total]:
    """What today comes to, by column."""
    day = page.day
    return {
        "supers": Total(format_number(day.supers)),
        "sheet": Total(format_number(day.sheet_supers) if day.sheet_supers else ""),
        "honey": Total(whole_mass(day.grams, page.unit), estimated=day.grams > 0),
        "moisture": Total(_percent(day.moisture)),
    }


def heading(page: DockPage) -> str:
    """What is in, against what the pull sheets say."""
    if not page.day.arrivals:
        return _tr("Arrivals today")
    truck = page.truck
    count = format_number(truck.supers)
    if truck.sheet > truck.supers:
        count = _tr("{n} of {sheet}").format(n=count, sheet=format_number(truck.sheet))
    if truck.crew:
        return _tr("{n} supers of {crew} are in").format(n=count, crew=truck.crew)
    return _tr("{n} supers are in today").format(n=count)


def season_heading(season: YardSeason) -> str:
    """Whose figures stand above the foot."""
    return _tr("{yard} this season").format(yard=season.name)


def season_figures(season: YardSeason, unit: MassUnit) -> list[Figure]:
    """A yard's figures over the season."""
    colonies = season.colonies
    each_mass = each_supers = ""
    if colonies:
        mass = format_mass(season.grams // colonies, unit)
        each_mass = _tr("{mass} a colony").format(mass=mass)
        each_supers = _tr("{n} a colony").format(n=f"{season.supers / colonies:.1f}")
    pulls = _tr("in one pull") if season.pulls == 1 else _tr("in {n} pulls")
    pulls = pulls.format(n=season.pulls)
    figures = [
        Figure(format_mass(season.grams, unit, 0), each_mass or pulls),
        Figure(_tr("{n} supers").format(n=format_number(season.supers)), each_supers or pulls),
    ]
    if season.moisture is not None:
        figures.append(Figure(format_moisture(season.moisture), _tr("mean moisture")))
    return figures


def said(mark: Mark, sentence: str) -> Message:
    """A sentence with its first words leading, where it falls into two parts."""
    for sign in (": ", ". "):
        lead, found, rest = sentence.partition(sign)
        if found and len(lead) < 32:
            return Message(mark, lead + sign.strip(), rest)
    return Message(mark, sentence)


def entry_messages(entry: Entry, page: DockPage, typed: Typed) -> list[Message]:
    """What the ledger would note of a pallet, and the honey it would book."""
    messages = [
        said(_NOTE_MARKS.get(key, Mark.NOTE), note_words(key, text))
        for key, text in notes_of(entry)
    ]
    grams = sum(lot.made_g for lot in entry.lots)
    mass = format_mass(grams, page.unit, 0)
    if typed.gross.strip():
        messages.append(Message(Mark.NOTE, f"≈ {mass}", _tr("of honey, by its weight.")))
    else:
        messages.append(
            Message(Mark.NOTE, f"≈ {mass}", _tr("by count: weigh it, and it is nearer."))
        )
    return messages


def about_yards(page: DockPage | None, typed: Typed) -> list[Message]:
    """What is to be known of the yards on the pallet: a hold, a first pull."""
    if page is None:
        return []
    lines = (*typed.kept, typed.line)
    codes = [yard.code for line in lines if (yard := yard_in(page, line.yard)) is not None]
    messages = []
    for code in dict.fromkeys(codes):
        if code in page.owners:
            words = _tr("Their honey, until it is settled.")
            messages.append(
                Message(Mark.NOTE, _tr("Bees of {owner}.").format(owner=page.owners[code]), words)
            )
        if code in page.held:
            messages.append(Message(Mark.HOLD, _tr("On hold."), page.held[code]))
        season = page.season
        if season is not None and season.code == code and not season.pulls:
            messages.append(Message(Mark.NOTE, _tr("First pull of this yard this season.")))
    return messages


def received_of(done: Recorded, unit: MassUnit) -> Received:
    """What came of recording a pallet, now or before the program was started again."""
    entry = done.entries[0]
    tag = next(key_of(p.place) for p in entry.postings if class_of(p.place) == PALLET)
    counts = [lot.attributes.get("count", 0) for lot in entry.lots]
    words = _tr("{tag} received: {n} supers, ≈ {mass} of honey.")
    if done.again:
        words = _tr("{tag} was received already, as entry {entry}: it is kept once.")
    sentence = words.format(
        tag=tag,
        entry=entry.id,
        n=format_number(sum(one for one in counts if isinstance(one, int))),
        mass=format_mass(sum(lot.made_g for lot in entry.lots), unit, 0),
    )
    return Received(tag, entry.lots[0].code, recorded(sentence, entry.id))
