"""From the yards' page to its table, its heading, its bars and its map."""

from collections.abc import Sequence

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.models.yard_places import Spot
from honeyledger.desktop.stations.yards.words import bare, counted, tr
from honeyledger.desktop.widgets.bars import BarRow
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.yards_page import YardRow, YardsPage

_MARKS = {"flagged": Mark.WARNING, "not clear": Mark.HOLD, "not yet pulled": Mark.NOTE}
_SEASONS_SHOWN = 2


def yard_columns(unit: MassUnit) -> tuple[Column[YardRow], ...]:
    """The table's columns: what is due, what a colony gave."""
    return (
        Column("code", tr("Yard"), lambda row: row.code, ColumnKind.CODE, sort_key=_code),
        Column(
            "state",
            tr("State"),
            state_word,
            ColumnKind.STATE,
            mark=lambda row: _MARKS.get(row.state, Mark.READY),
            sort_key=lambda row: row.state,
        ),
        Column(
            "name",
            tr("Name"),
            lambda row: row.name,
            ColumnKind.NAME,
            note=lambda row: row.due,
            sort_key=lambda row: row.name.casefold(),
            least=96,
        ),
        Column("forage", tr("Forage"), lambda row: row.text("forage"), from_width=1000),
        Column(
            "colonies",
            tr("Colonies"),
            lambda row: format_number(row.colonies) if row.colonies else "",
            ColumnKind.NUMBER,
            sort_key=lambda row: row.colonies,
        ),
        Column(
            "supers",
            tr("Supers"),
            lambda row: format_number(row.now.supers) if row.now.supers else "",
            ColumnKind.NUMBER,
            sort_key=lambda row: row.now.supers,
            from_width=760,
        ),
        Column(
            "a_colony",
            tr("A colony"),
            lambda row: _mass(row.a_colony(row.now), unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.a_colony(row.now) if row.now.grams else None,
        ),
        Column(
            "grams",
            tr("Honey"),
            lambda row: _mass(row.now.grams, unit, 0),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.now.grams,
            estimated=lambda row: bool(row.now.grams),
        ),
    )


def _code(row: YardRow) -> str:
    return row.code


def _mass(grams: int | None, unit: MassUnit, decimals: int = 1) -> str:
    return bare(grams, unit, decimals) if grams else ""


def state_word(row: YardRow) -> str:
    """A state in a word or two."""
    return tr("not pulled") if row.state == "not yet pulled" else tr(row.state)


def heading(page: YardsPage) -> str:
    """How many yards, and how many wait for their first pull."""
    yards = counted(len(page.rows), tr("One yard"), tr("{n} yards"))
    waiting = sum(not row.now.pulls for row in page.rows)
    if not waiting:
        return tr("{yards}, all pulled this season").format(yards=yards)
    words = tr("{yards}, {n} not yet pulled this season")
    return words.format(yards=yards, n=format_number(waiting))


def totals(page: YardsPage) -> tuple[str, dict[str, Total]]:
    """All yards together."""
    rows, unit = page.rows, page.unit
    return tr("This season"), {
        "colonies": Total(format_number(sum(row.colonies for row in rows))),
        "supers": Total(format_number(sum(row.now.supers for row in rows))),
        "a_colony": Total(_mass(page.a_colony, unit)),
        "grams": Total(bare(sum(row.now.grams for row in rows), unit, 0), estimated=True),
    }


def bars_heading(row: YardRow) -> str:
    """What the bars of a yard say: what is due of it, else what a colony gave."""
    if row.due:
        return tr("{name}: {due}").format(name=row.name, due=say(row.due))
    if not row.colonies:
        return tr("{name}: say how many colonies stand there").format(name=row.name)
    return tr("{name}: a colony, by the colonies there now").format(name=row.name)


def yard_bars(row: YardRow, page: YardsPage) -> list[BarRow]:
    """A colony of this yard this season, of all yards, and of this yard in seasons past."""
    unit = page.unit
    now = row.a_colony(row.now)
    if now is None:
        return []
    bars = [BarRow(tr("This season"), _shown(now, unit), now)]
    if page.a_colony is not None:
        words = _shown(page.a_colony, unit)
        bars.append(BarRow(tr("All yards pulled"), words, page.a_colony))
    for season in row.seasons[1 : _SEASONS_SHOWN + 1]:
        grams = row.a_colony(season) or 0
        bars.append(BarRow(str(season.season), _shown(grams, unit), grams))
    return bars


def _shown(grams: int, unit: MassUnit) -> str:
    return format_mass(grams, unit, 1) if grams else tr("nothing yet")


def yard_spots(rows: Sequence[YardRow]) -> list[Spot]:
    """The yards that have coordinates; those pulled this season are filled."""
    spots = []
    for row in rows:
        north, east = row.number("latitude"), row.number("longitude")
        if north is not None and east is not None:
            spots.append(Spot(row.code, row.name, north, east, bool(row.now.pulls)))
    return spots
