"""From the exposure of a house to its answer, its tables and its figures."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from honeyledger.desktop.language import say
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.exposure.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.exposure import (
    HEEL,
    Called,
    Exposure,
    SourceExposure,
    Tie,
    WashTonight,
)
from honeyledger.services.exposure_page import ExposurePage, OpenRun


def answer(whole: Exposure, unit: MassUnit) -> str:
    """The recall to expect, and the source with most behind it."""
    if not whole.sources:
        return tr("Nothing stands here yet that could be called back.")
    mass = format_mass(whole.expected_g, unit, 0)
    words = tr("Were one source bad, {mass} would come back on the mean.")
    if len(whole.sources) < 2:
        return words.format(mass=mass)
    most = whole.sources[0]
    words += " " + tr("Most is behind {name}: {most}.")
    return words.format(mass=mass, name=say(most.name), most=format_mass(most.grams, unit, 0))


def ranked(whole: Exposure) -> list[Tie]:
    """All ties, those first without which the recall to expect were smallest."""
    return sorted((*whole.heels, *whole.mixes), key=lambda tie: (-tie.saves_g, tie.code))


def _why(tie: Tie) -> str:
    if tie.kind == HEEL:
        return tr("heels: not washed between its fills")
    return tr("made of several: {what}").format(what=say(tie.name))


def tie_columns(unit: MassUnit) -> tuple[Column[Tie], ...]:
    """What ties, why, how many sources, how much is behind it, what it costs."""
    return (
        Column(
            "what",
            tr("What"),
            lambda row: row.name if row.kind == HEEL else row.code,
            ColumnKind.NAME,
            note=_why,
            least=150,
        ),
        Column(
            "sources", tr("Sources"), lambda row: format_number(row.sources), ColumnKind.NUMBER
        ),
        _mass("grams", tr("Behind it"), unit),
        _mass("saves_g", tr("Costs"), unit),
    )


def source_columns(unit: MassUnit) -> tuple[Column[SourceExposure], ...]:
    """Each yard and supplier, with what would come back with it."""
    return (
        Column(
            "name",
            tr("Yard or supplier"),
            lambda row: row.name,
            ColumnKind.NAME,
            note=lambda row: row.code if row.code != row.name else "",
            least=150,
        ),
        _mass("here_g", tr("Here"), unit),
        _mass("sent_g", tr("Sent"), unit),
        _mass("grams", tr("In all"), unit),
    )


def wash_columns(unit: MassUnit) -> tuple[Column[WashTonight], ...]:
    """Each vessel that has something in it or clinging to it."""
    return (
        Column("name", tr("Vessel"), lambda row: row.name, ColumnKind.NAME, least=150),
        Column(
            "sources", tr("Sources"), lambda row: format_number(row.sources), ColumnKind.NUMBER
        ),
        _mass("fill_g", tr("Usual fill"), unit),
        _mass("saves_g", tr("Saves"), unit),
    )


def run_columns(unit: MassUnit) -> tuple[Column[OpenRun], ...]:
    """Each run that is not signed, with what would go with it now."""

    def mass(key: str, title: str) -> Column[OpenRun]:
        return _number(key, title, unit, lambda row: getattr(row.called, key))

    return (
        Column("code", tr("Run"), lambda row: row.code, ColumnKind.CODE),
        Column("name", tr("Line"), lambda row: row.name, ColumnKind.NAME),
        Column(
            "sources", tr("Sources"), lambda row: format_number(row.sources), ColumnKind.NUMBER
        ),
        mass("here_g", tr("Here")),
        mass("sent_g", tr("Sent")),
    )


def _mass(key: str, title: str, unit: MassUnit) -> Column[Any]:
    return _number(key, title, unit, lambda row: getattr(row, key))


def _number(key: str, title: str, unit: MassUnit, grams: Callable[[Any], int]) -> Column[Any]:
    return Column(
        key,
        title,
        lambda row: bare(grams(row), unit, 0),
        ColumnKind.NUMBER,
        unit=unit,
        sort_key=grams,
    )


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure and what it is."""

    figure: str
    meaning: str


def called_figures(called: Called, unit: MassUnit) -> list[Figure]:
    """What would go with one code."""
    figures = [
        Figure(format_mass(called.grams, unit, 0), tr("in all")),
        Figure(format_number(called.lots), tr("lots")),
        Figure(format_number(called.customers), tr("customers")),
    ]
    if called.jars:
        figures.append(Figure(format_number(called.jars), tr("jars sent")))
    return figures


def best_wash(page: ExposurePage) -> str:
    """What a wash tonight would save most; "" where none saves anything."""
    if not page.whole.washes:
        return ""
    best: WashTonight = page.whole.washes[0]
    words = tr("A wash of {name} tonight takes {mass} off: {sources} cling to its next fill.")
    return words.format(
        name=best.name,
        mass=format_mass(best.saves_g, page.unit, 0),
        sources=counted(best.sources, tr("1 source"), tr("{n} sources")),
    )


def run_words(runs: Sequence[OpenRun], unit: MassUnit) -> str:
    """What the open run with most in it ties together; "" where none is open."""
    if not runs:
        return ""
    most = max(runs, key=lambda run: (run.called.grams, run.code))
    words = tr("{run} is open: {sources}, {mass} would go with it now.")
    return words.format(
        run=most.code,
        sources=counted(most.sources, tr("1 source"), tr("{n} sources")),
        mass=format_mass(most.called.grams, unit, 0),
    )
