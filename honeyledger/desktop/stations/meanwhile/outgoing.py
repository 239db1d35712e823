"""The page of where honey waits to go: the drums."""

from collections.abc import Sequence

from honeyledger.desktop.models.command_lines import Command
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.meanwhile.page import (
    Columns,
    Page,
    code_column,
    counted,
    mass,
    moisture_column,
    name_column,
    state_column,
    summed,
    tr,
)
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.services.standing_now import DrumNow, drums_now


def _drum_columns(unit: MassUnit) -> Columns:
    return (
        code_column(tr("Drum")),
        state_column(),
        name_column("container", tr("Stands in"), lambda row: row.container),
        moisture_column(),
        Column(
            "colour",
            tr("Colour"),
            kind=ColumnKind.COLOUR,
            pfund_mm=lambda row: row.colour / 10 if row.colour is not None else None,
            sort_key=lambda row: row.colour,
            from_width=620,
        ),
        Column(
            "grams",
            tr("Net"),
            lambda row: mass(row.grams, unit, 1),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: row.grams,
            estimated=lambda row: row.state == "not weighed",
        ),
    )


def _drum_answer(rows: Sequence[DrumNow], unit: MassUnit) -> str:
    if not rows:
        return tr("No drum is on hand.")
    drums = counted(len(rows), tr("One drum"), tr("{n} drums"))
    parts = [f"{drums}, {format_mass(summed(rows, 'grams'), unit, 0)}"]
    for state, words in (
        ("hold", tr("{n} on hold")),
        ("not weighed", tr("{n} not weighed yet")),
        ("not read", tr("{n} without readings")),
    ):
        count = sum(row.state == state for row in rows)
        if count:
            parts.append(words.format(n=count))
    return f"{', '.join(parts)}."


def drums_page() -> Page:
    """The page of this place."""
    return Page(
        title=tr("Drums"),
        heading=tr("Drums on hand, those that need a person first"),
        rows=lambda view, _now_ms: drums_now(view),
        columns=_drum_columns,
        code=lambda row: str(row.code),
        answer=_drum_answer,
        totals=lambda rows, unit: {"grams": Total(mass(summed(rows, "grams"), unit, 1))},
        empty=tr("No drum on hand. Ctrl+4 opens the floor, where drums are filled."),
        will=tr(
            "This page will find drums by colour and moisture, plan a blend, and take readings "
            "from numbered sample pots. Drums are filled on the Extraction page."
        ),
        commands=(
            Command(
                tr("Note a drum's readings"),
                "honeyledger measure {code} --moisture 17.2 --colour 44",
                "D",
            ),
            Command(tr("Weigh it again"), "honeyledger reweigh {code} --gross 312.5", "D"),
            Command(
                tr("Put it on hold"),
                'honeyledger hold {code} --reason "sample to the laboratory"',
                "D",
            ),
            Command(
                tr("End a hold"), 'honeyledger release {code} --reason "in order"', "D", "hold"
            ),
            Command(
                tr("Pour it into a vessel"),
                'honeyledger fill {code} --into "Tank 1" --whole',
                "D",
            ),
            Command(tr("Print its label"), "honeyledger labels {code} -o drum.pdf", "D"),
        ),
    )
