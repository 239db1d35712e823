"""What a plan of a blend comes to, and whether that is what is wanted of it.

Moisture goes by weight. Of colour only the range is told: a blend lies between its parts, but no
mean of Pfund millimetres is true. What it ties together is what a recall of one yard would reach.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.stations.drums.rows import Figure, yards_words
from honeyledger.desktop.stations.drums.words import counted, tr
from honeyledger.domain.blend import Part, expected
from honeyledger.domain.keeping import class_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_mass,
    format_moisture,
    format_number,
    parse_colour,
    parse_mass_g,
    parse_moisture,
)
from honeyledger.services.blending import BlendSheet
from honeyledger.services.drums_page import DrumRow, DrumsPage

MOST, SPAN = "most", "span"
_SPAN = re.compile(r"\s*([\d.,]+)\s*(?:-|–|to)\s*([\d.,]+)\s*")

NO_SPAN = Sentence(
    "no-colour-span", "{text} is no range of colours: type it in millimetres, such as 30-44."
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a blend should come to; None where nobody said.

    Args:
        most: the highest moisture, hundredths of a percent.
        span: the lightest and the darkest, tenths of a Pfund millimetre.
    """

    most: int | None = None
    span: tuple[int, int] | None = None


def wanted_of(typed: FormTyped) -> Wanted:
    """What is typed that a blend should come to.

    Raises:
        Refusal: it cannot be read.
    """
    most, span = typed.text(MOST), typed.text(SPAN)
    return Wanted(
        parse_moisture(most, field=MOST) if most else None, _span_of(span) if span else None
    )


def _span_of(text: str) -> tuple[int, int]:
    found = _SPAN.fullmatch(text.casefold().removesuffix("mm"))
    if found is None:
        raise Refusal(NO_SPAN, field=SPAN, text=text)
    low, high = (parse_colour(one, field=SPAN) for one in found.groups())
    if low > high:
        raise Refusal(NO_SPAN, field=SPAN, text=text)
    return low, high


@dataclass(frozen=True, slots=True)
class Mixed:
    """What a plan comes to: grams, mean moisture by mass, colours from and to, sources in reach.

    Moisture is None where a part was not read; colours are of the parts that were, which may not
    be all.
    """

    parts: int
    grams: int
    moisture: int | None
    colours: tuple[int, int] | None
    yards: tuple[str, ...]
    held: tuple[str, ...]
    all_coloured: bool = True


def mixed(typed: FormTyped, page: DrumsPage) -> Mixed:
    """What the lines of a plan come to; what was weighed counts before what was planned."""
    rows = [(row, line) for line in typed.lines if (row := page.row(line.code)) is not None]
    parts = [
        (row, _mass(line.text("weighed") or line.text("planned"), page.unit, row))
        for row, line in rows
    ]
    come = expected([Part(part, row.moisture, row.colour) for row, part in parts])
    colours = [row.colour for row, _ in parts if row.colour is not None]
    return Mixed(
        len(typed.lines),
        come.grams,
        come.moisture,
        (min(colours), max(colours)) if colours else None,
        tuple(sorted({yard for row, _ in parts for yard in row.yards})),
        tuple(row.code for row, _ in parts if row.held),
        len(colours) == len(parts),
    )


def _mass(text: str, unit: MassUnit, row: DrumRow) -> int:
    """What is typed; all of the drum where nothing is, or cannot be read yet."""
    try:
        return parse_mass_g(text, unit) if text else row.grams
    except Refusal:
        return row.grams


def misses(plan: Mixed, wanted: Wanted) -> list[str]:
    """In what a plan is not what is wanted, or cannot be told to be."""
    found = []
    if wanted.most is not None and plan.moisture is None:
        found.append(tr("not every part's moisture was read"))
    elif wanted.most is not None and plan.moisture is not None and plan.moisture > wanted.most:
        over = format_moisture(plan.moisture, 2), format_moisture(wanted.most, 1)
        found.append(tr("{moisture} is over {most}").format(moisture=over[0], most=over[1]))
    if wanted.span is None:
        return found
    low, high = wanted.span
    if not plan.all_coloured or plan.colours is None:
        found.append(tr("not every part's colour was read"))
    if plan.colours is not None and plan.colours[0] < low:
        light = format_colour(plan.colours[0])
        found.append(tr("a part of {colour} is too light").format(colour=light))
    if plan.colours is not None and plan.colours[1] > high:
        dark = format_colour(plan.colours[1])
        found.append(tr("a part of {colour} is too dark").format(colour=dark))
    return found


def judged(plan: Mixed, typed: FormTyped, tells: str) -> str:
    """What stands above a plan's figures where something is wanted of it; "" where nothing is.

    Args:
        tells: what else is told of it, said where it is as wanted.
    """
    try:
        wanted = wanted_of(typed)
    except Refusal:
        return ""
    if wanted == Wanted():
        return ""
    wrong = misses(plan, wanted)
    if wrong:
        return tr("Not as wanted: {why}").format(why="; ".join(wrong))
    return tr("As wanted. {plan}").format(plan=tells)


def blend_heading(plan: Mixed) -> str:
    """What a plan ties together."""
    words = counted(plan.parts, tr("The plan, one part"), tr("The plan, {n} parts"))
    return f"{words}: {yards_words(plan.yards)}" if plan.yards else words


def blend_figures(plan: Mixed, unit: MassUnit) -> list[Figure]:
    """Mass, moisture, colour, and what it ties together."""
    moisture = tr("not read") if plan.moisture is None else format_moisture(plan.moisture, 2)
    kept = tr("moisture") if plan.moisture is None else tr(class_of(plan.moisture).name)
    figures = [Figure(format_mass(plan.grams, unit, 0), tr("goes in")), Figure(moisture, kept)]
    if plan.colours is not None:
        low, high = (format_colour(one) for one in plan.colours)
        figures.append(
            Figure(low if low == high else f"{low} – {high}", tr("colour of its parts"))
        )
    tied = format_number(len(plan.yards))
    figures.append(Figure(tied, tr("yards tied")))
    return figures


# What was blended.


def made_heading(vessel: str, sheet: BlendSheet) -> str:
    """Which blend it was."""
    parts = counted(len(sheet.parts), tr("one part"), tr("{n} parts"))
    words = tr("Blended in {vessel}, {when}: {parts}")
    return words.format(vessel=vessel, when=format_moment(sheet.happened), parts=parts)


def made_figures(sheet: BlendSheet, unit: MassUnit) -> list[Figure]:
    """What was planned against what was weighed, what its parts make it against what was read."""
    figures = [Figure(format_mass(sheet.net_g, unit), tr("weighed"))]
    if sheet.planned_g is not None:
        off = sheet.net_g - sheet.planned_g
        shown = f"{'+' if off > 0 else ''}{format_mass(off, unit)}"
        planned = tr("against {mass} planned").format(mass=format_mass(sheet.planned_g, unit))
        figures.append(Figure(shown, planned))
    by_parts = tr("not read") if sheet.moisture is None else format_moisture(sheet.moisture, 2)
    figures.append(Figure(by_parts, tr("by its parts")))
    if sheet.measured is not None:
        read = format_moisture(sheet.measured, 2)
        figures.append(Figure(read, tr("read since, {lots}").format(lots=_some(sheet.read_on))))
    else:
        figures.append(Figure(tr("not read"), tr("since")))
    return figures


def _some(codes: Sequence[str]) -> str:
    return codes[0] if len(codes) == 1 else counted(len(codes), "", tr("{n} lots"))
