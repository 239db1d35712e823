"""From the drum room's page to its table, its heading, and the figures under the table."""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.drums.words import bare, counted, tr
from honeyledger.domain.keeping import class_of
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_number,
)
from honeyledger.services.drums_page import DrumRow, DrumsPage

_MARKS = {
    "hold": Mark.HOLD,
    "not weighed": Mark.WARNING,
    "not read": Mark.NOTE,
    "not closed": Mark.WORKING,
}
_YARDS_NAMED = 2


def drum_columns(unit: MassUnit, rows: Sequence[DrumRow] = ()) -> tuple[Column[DrumRow], ...]:
    """The table's columns: what a person calls it by, what is wrong, what is in it.

    Where all the rows that stand anywhere stand in one room, only their row in it is named.
    """
    one_room = len({spot_parts(row)[0] for row in rows if row.spot}) == 1

    def where(row: DrumRow) -> str:
        return about(row, with_room=not one_room)

    return (
        Column("code", tr("Drum"), lambda row: row.code, ColumnKind.CODE, sort_key=_code),
        Column(
            "state",
            tr("State"),
            lambda row: state_word(row.state),
            ColumnKind.STATE,
            mark=lambda row: _MARKS.get(row.state, Mark.READY),
            sort_key=lambda row: row.state,
        ),
        Column(
            "about",
            tr("Stands in"),
            where,
            ColumnKind.NAME,
            note=reason,
            detail=reason_by_way,
            sort_key=lambda row: about(row).casefold(),
            least=80,
        ),
        Column(
            "moisture",
            tr("Moist."),
            lambda row: _percent(row.moisture),
            ColumnKind.NUMBER,
            unit="%",
            sort_key=lambda row: row.moisture,
        ),
        Column(
            "colour",
            tr("Colour"),
            kind=ColumnKind.COLOUR,
            pfund_mm=lambda row: None if row.colour is None else row.colour / 10,
            sort_key=lambda row: row.colour,
        ),
        Column(
            "age",
            tr("Age"),
            lambda row: format_number(row.age_days),
            ColumnKind.NUMBER,
            unit=tr("days"),
            sort_key=lambda row: row.age_days,
            from_width=760,
        ),
        Column(
            "grams",
            tr("Net"),
            lambda row: bare(row.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.grams,
            estimated=lambda row: row.state == "not weighed",
        ),
    )


def state_word(state: str) -> str:
    """A state as the table says it, short."""
    words = {"not weighed": tr("to weigh"), "not read": tr("to read"), "not closed": tr("open")}
    return words.get(state) or tr(state)


def _code(row: DrumRow) -> str:
    return row.code


def _percent(moisture: int | None) -> str:
    return "" if moisture is None else format_moisture(moisture).removesuffix(" %")


def about(row: DrumRow, *, with_room: bool = True) -> str:
    """The container, and where it stands."""
    spot = say(row.spot)
    if not with_room:
        place = spot_parts(row)[1]
        spot = tr("row {row}").format(row=place) if place else ""
    return ", ".join(part for part in (row.container, spot) if part)


def spot_parts(row: DrumRow) -> tuple[str, str]:
    """The room it stands in and the row in it, "" where either is not known."""
    if isinstance(row.spot, Phrase):
        return str(row.spot.facts.get("room", "")), str(row.spot.facts.get("row", ""))
    return row.spot, ""


def reason(row: DrumRow) -> str:
    """What to know of it: each hold with its ancestor, whose it is, what is in doubt or missed.

    A hold of its own is said without its code, which stands at the beginning of the row.
    """
    return _reason(row, row.held)


def reason_by_way(row: DrumRow) -> str:
    """The same with the ways by which it is held; "" where a hold comes by none."""
    return _reason(row, row.ways) if row.ways not in ((), row.held) else ""


def _reason(row: DrumRow, holds: Sequence[str]) -> str:
    parts = [say(held).removeprefix(f"{row.code}: ") for held in holds]
    if row.doubtful is not None:
        words = tr("moisture in doubt: {moisture} by the calibration")
        parts.append(words.format(moisture=format_moisture(row.doubtful)))
    if row.missing:
        parts.append(tr("not found at the last walk"))
    if row.owner:
        parts.append(tr("belongs to {owner}").format(owner=row.owner))
    return "; ".join(parts)


def heading(rows: Sequence[DrumRow], page: DrumsPage) -> str:
    """How many drums are shown, with their honey, of how many."""
    drums = counted(len(rows), tr("One drum"), tr("{n} drums"))
    mass = format_mass(sum(row.grams for row in rows), page.unit, 0)
    if len(rows) == len(page.rows):
        return tr("{drums} on hand, {mass}").format(drums=drums, mass=mass)
    words = tr("{drums} of {all}, {mass}")
    return words.format(drums=drums, all=format_number(len(page.rows)), mass=mass)


def totals(rows: Sequence[DrumRow], page: DrumsPage) -> tuple[str, dict[str, Total]]:
    """What the rows shown need, and their honey."""
    words = [
        counted(number, one, many)
        for state, one, many in (
            ("hold", tr("1 held"), tr("{n} held")),
            ("not weighed", tr("1 to weigh"), tr("{n} to weigh")),
            ("not read", tr("1 to read"), tr("{n} to read")),
        )
        if (number := sum(row.state == state for row in rows))
    ]
    mass = bare(sum(row.grams for row in rows), page.unit)
    return ", ".join(words) or tr("All in order"), {"grams": Total(mass, page.unit)}


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure and what it is."""

    figure: str
    meaning: str


# What is known of the drum in hand.


def drum_heading(row: DrumRow) -> str:
    """Where its honey is from, in short."""
    return tr("{code}: in reach of {yards}").format(code=row.code, yards=yards_words(row.yards))


def yards_words(yards: Sequence[str]) -> str:
    """Yards by name, or how many where there are more than a few."""
    if not yards:
        return tr("no yard")
    if len(yards) > _YARDS_NAMED:
        return counted(len(yards), "", tr("{n} yards"))
    return tr("{one} and {other}").format(one=yards[0], other=yards[1]) if yards[1:] else yards[0]


def drum_figures(row: DrumRow) -> list[Figure]:
    """Whether it keeps, its colour, its age."""
    figures = []
    if row.moisture is not None:
        kept = tr(class_of(row.moisture).name)
        figures.append(Figure(format_moisture(row.moisture), kept))
    else:
        figures.append(Figure(tr("not read"), tr("moisture")))
    colour = tr("not read") if row.colour is None else format_colour(row.colour)
    figures.append(Figure(colour, tr("colour, Pfund")))
    days = counted(row.age_days, tr("1 day"), tr("{n} days"))
    figures.append(Figure(days, tr("since it was filled")))
    return figures


def caution(row: DrumRow) -> str:
    """What to mind of a drum that may ferment; "" where there is nothing to mind."""
    if row.moisture is None or class_of(row.moisture).yeast_a_gram in (None, 1_000):
        return ""
    return tr(
        "At {moisture} it {keeping}: limits differ by country, follow your local code."
    ).format(moisture=format_moisture(row.moisture), keeping=tr(class_of(row.moisture).name))
