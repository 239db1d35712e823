"""From a plan of runs to its table, its figures, and what is said of it."""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.hot_room.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_mass, format_moisture, format_number
from honeyledger.domain.units import format_share as share_words
from honeyledger.services.hot_room_page import HotRoomPage
from honeyledger.services.recall_plans import Plan


@dataclass(frozen=True, slots=True)
class RunRow:
    """One run of a plan: which pallets go in, what they make, which yards it ties together."""

    number: int
    codes: tuple[str, ...]
    grams: int
    moisture: int | None
    yards: tuple[str, ...]

    @property
    def key(self) -> str:
        """What tells it from the others."""
        return str(self.number)


def run_rows(plan: Plan, page: HotRoomPage) -> list[RunRow]:
    """The runs in their order; yards by name, as the page has them."""
    rows = []
    for number, lot in enumerate(plan.lots, 1):
        inside = [row for code in lot.codes if (row := page.row(code)) is not None]
        yards = dict.fromkeys(yard for row in inside for yard in row.yards)
        rows.append(RunRow(number, lot.codes, lot.grams, lot.moisture, tuple(yards)))
    return rows


def run_columns(unit: MassUnit) -> tuple[Column[RunRow], ...]:
    """A run a row: its number, its pallets, its honey, how many yards it ties."""
    return (
        Column("run", tr("Run"), lambda row: row.key, ColumnKind.NUMBER),
        Column(
            "pallets",
            tr("Goes in"),
            lambda row: counted(len(row.codes), tr("1 pallet"), tr("{n} pallets")),
            ColumnKind.NAME,
            note=lambda row: ", ".join(row.codes),
            least=150,
        ),
        Column(
            "yards",
            tr("Yards"),
            lambda row: format_number(len(row.yards)),
            ColumnKind.NUMBER,
            note=lambda row: ", ".join(row.yards),
        ),
        Column(
            "moisture",
            tr("Moist."),
            lambda row: "" if row.moisture is None else _bare_moisture(row.moisture),
            ColumnKind.NUMBER,
            unit="%",
        ),
        Column(
            "grams",
            tr("Honey"),
            lambda row: bare(row.grams, unit, 0),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda _row: True,
        ),
    )


def _bare_moisture(moisture: int) -> str:
    return format_moisture(moisture).removesuffix(" %")


@dataclass(frozen=True, slots=True)
class PlanFigure:
    """A mass and what it is of."""

    figure: str
    meaning: str


def plan_figures(plan: Plan, unit: MassUnit) -> list[PlanFigure]:
    """The recall to expect with it, with the oldest first, and with the order that was there."""
    figures = [PlanFigure(_mass(plan.expected_g, unit), tr("as proposed"))]
    if plan.by_age_g is not None:
        figures.append(PlanFigure(_mass(plan.by_age_g, unit), tr("oldest first")))
    if plan.own_g is not None:
        figures.append(PlanFigure(_mass(plan.own_g, unit), tr("your order")))
    return figures


def _mass(grams: int, unit: MassUnit) -> str:
    return format_mass(grams, unit, 0)


def plan_message(plan: Plan, unit: MassUnit) -> Message:
    """How good the plan is, and what stayed out."""
    said = []
    if plan.by_age_g and plan.by_age_g > plan.expected_g:
        saved = 1 - plan.expected_g / plan.by_age_g
        said.append(tr("{share} less than oldest first.").format(share=share_words(saved)))
    elif plan.by_age_g is not None:
        said.append(tr("Oldest first is as good."))
    if plan.by_age_g is not None and not plan.by_age_fits:
        said.append(tr("Oldest first would not keep what was asked."))
    if plan.stopped == "proved":
        said.append(tr("No plan can do better."))
    elif plan.best_g is not None and plan.best_g > 0:
        best = tr("The time was up; none can come below {mass}.")
        said.append(best.format(mass=_mass(plan.best_g, unit)))
    else:
        said.append(tr("The time was up; a better plan may exist."))
    if plan.left_out:
        out = counted(len(plan.left_out), tr("1 pallet stays out"), tr("{n} pallets stay out"))
        said.append(tr("{pallets}: held, or too wet yet.").format(pallets=out))
    lead = tr("Washed between the runs, a recall would take so much on the mean.")
    return Message(Mark.NOTE, lead, " ".join(said))


def own_words(codes: Sequence[str]) -> str:
    """What is said once the pallets of a run are the next run's order."""
    pallets = counted(len(codes), tr("1 pallet"), tr("{n} pallets"))
    return tr("The next run is ordered as proposed: {pallets}.").format(pallets=pallets)
