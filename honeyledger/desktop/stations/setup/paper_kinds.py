"""What is set up about people and paper: shifts, label stock, printers, where papers go."""

from collections.abc import Mapping

from honeyledger.desktop.stations.setup.asks import Ask, SetupKind, Typing, tr
from honeyledger.documents.stock import Stock
from honeyledger.domain.label_stock import A4, LETTER, PAPERS_UM, ROLL, SHEET, parse_um
from honeyledger.domain.paper_colour import COLOURS, WHITE
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count


def shift_kind() -> SetupKind:
    """Who is on which shift; nobody signs on for a task."""
    return SetupKind(
        "shift",
        "shift",
        tr("Shifts"),
        tr("Who is on which shift, and when it begins: names with commas between."),
        (
            Ask("name", tr("Name of the shift"), usual=tr("Early")),
            Ask("begins", tr("Begins at"), offers=("06:00", "14:00", "22:00")),
            Ask("ends", tr("Ends at"), offers=("14:00", "22:00", "06:00"), beside=True),
            Ask("people", tr("Who is on it"), Typing.PEOPLE, short=tr("with")),
            Ask("note", tr("Note"), later=True),
        ),
    )


def order_kind() -> SetupKind:
    """What customers wait for; a dispatch note with its name as reference ends an order."""
    return SetupKind(
        "order",
        "order",
        tr("Orders"),
        tr("Who wants what, by which day: the sheet of the day lists what is due."),
        (
            Ask("name", tr("Number or name of the order")),
            Ask(
                "customer", tr("Who wants it"), Typing.NAMED, of="customer", short=tr("wanted by")
            ),
            Ask("due", tr("The day it has to go")),
            Ask("goods", tr("What is wanted"), beside=True),
            Ask("done", tr("It went, or is called off"), Typing.YES),
            Ask("note", tr("Note"), later=True),
        ),
    )


def stock_kind() -> SetupKind:
    """Label stock of the house's own, by what a ruler says."""
    mm = tr("mm")
    return SetupKind(
        "stock",
        "stock",
        tr("Label stock"),
        tr("Measure a sheet or roll in mm. The drawing shows how its labels lie."),
        (
            Ask("name", tr("What it is called here")),
            Ask(
                "paper",
                tr("It comes on"),
                Typing.BUTTONS,
                usual=A4,
                buttons=(
                    (A4, "A4"),
                    (LETTER, "Letter"),
                    (SHEET, tr("other sheets")),
                    (ROLL, tr("a roll")),
                ),
            ),
            Ask("width_um", tr("Label, width"), Typing.MEASURE, unit=mm, short=tr("wide")),
            Ask(
                "height_um",
                tr("height, or length"),
                Typing.MEASURE,
                unit=mm,
                beside=True,
                short=tr("high"),
            ),
            Ask("columns", tr("Side by side"), Typing.COUNT, usual="1", short=tr("across")),
            Ask("rows", tr("Below each other"), Typing.COUNT, usual="1", beside=True),
            Ask("left_um", tr("Left margin"), Typing.MEASURE, unit=mm, usual="0"),
            Ask("top_um", tr("Upper margin"), Typing.MEASURE, unit=mm, usual="0", beside=True),
            Ask("gap_x_um", tr("Gap across"), Typing.MEASURE, unit=mm, usual="0"),
            Ask("gap_y_um", tr("Gap down"), Typing.MEASURE, unit=mm, usual="0", beside=True),
            Ask("sheet_width_um", tr("Sheet, width"), Typing.MEASURE, unit=mm, later=True),
            Ask(
                "sheet_height_um",
                tr("Sheet, height"),
                Typing.MEASURE,
                unit=mm,
                later=True,
                beside=True,
            ),
            Ask(
                "colour",
                tr("Its paper's colour"),
                default=WHITE,
                offers=tuple(COLOURS),
                later=True,
            ),
            Ask("note", tr("Note"), later=True),
        ),
    )


def stock_drawn(typed: Mapping[str, str]) -> Stock | None:
    """The sheet as far as it is typed, whether it can be or not; None without a label's size.

    What cannot be read yet counts as none: whoever draws it shows what is wrong with the rest.
    """

    def mm(key: str) -> float:
        try:
            return parse_um(typed.get(key, ""), key) / 1000
        except Refusal:
            return 0.0

    def count(key: str) -> int:
        try:
            return min(99, max(1, parse_count(typed.get(key, ""), field=key)))
        except Refusal:
            return 1

    width, height = mm("width_um"), mm("height_um")
    if not width or not height:
        return None
    paper = typed.get("paper", "")
    is_roll = paper not in (*PAPERS_UM, SHEET)
    return Stock(
        typed.get("name", ""),
        paper,
        (),
        1 if is_roll else count("columns"),
        1 if is_roll else count("rows"),
        width,
        height,
        0.0 if is_roll else mm("left_um"),
        0.0 if is_roll else mm("top_um"),
        width + mm("gap_x_um"),
        height + mm("gap_y_um"),
        (mm("sheet_width_um"), mm("sheet_height_um")),
    )
