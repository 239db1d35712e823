"""The frame's figures: service rows to what the line, the mast and the status bar show."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.frame_facts import StatusFacts
from honeyledger.desktop.models.line_figures import (
    Badge,
    Flow,
    LineFigures,
    PlaceFigure,
    grouped,
)
from honeyledger.services.holding import name_in
from honeyledger.services.line import LinePlace, LineState, line_state
from honeyledger.services.store import View

_QUALIFIERS = {"hot_room": "waiting", "extraction": "in tank", "drums": "on hand"}


@dataclass(frozen=True, slots=True)
class FrameRow:
    """What is asked in one view for the whole frame."""

    house: str
    operator: str
    line: LineState


def frame_row(view: View, now_ms: int, operator: str) -> FrameRow:
    """In the read lane: everything the frame shows."""
    return FrameRow(
        name_in(view, "house", "Honeyledger"),
        name_in(view, f"operator/{operator}", ""),
        line_state(view, now_ms),
    )


def _tr(text: str) -> str:
    return QCoreApplication.translate("frame", text)


def place_names() -> dict[str, str]:
    """The seven places, as they are called above their figures."""
    return {
        "yards": _tr("Yards"),
        "dock": _tr("Dock"),
        "hot_room": _tr("Hot room"),
        "extraction": _tr("Extraction"),
        "drums": _tr("Drums"),
        "bottling": _tr("Bottling"),
        "dispatch": _tr("Dispatch"),
    }


def line_figures(line: LineState) -> LineFigures:
    """The line as it is drawn."""
    names = place_names()
    places = tuple(_place(names[row.key], row) for row in line.places)
    flows = tuple(
        Flow((flow.grams + 500) // 1000, _flow_colour(line, at))
        for at, flow in enumerate(line.flows)
    )
    return LineFigures(places, flows)


def _flow_colour(line: LineState, at: int) -> float | None:
    """A flow's colour in Pfund mm; where nothing of it was read, that of the nearest flow read.

    It is for drawing only, so that the channel is honey all along.
    """
    read = [
        (abs(other - at), flow.colour)
        for other, flow in enumerate(line.flows)
        if flow.colour is not None
    ]
    return min(read)[1] / 10 if read else None


def _place(name: str, row: LinePlace) -> PlaceFigure:
    badges = []
    if row.held:
        badges.append(Badge(Mark.HOLD, row.held, _tr("on hold")))
    if row.warnings:
        badges.append(Badge(Mark.WARNING, row.warnings, _tr("need a person")))
    return PlaceFigure(
        row.key,
        name,
        row.amount,
        row.unit,
        _QUALIFIERS.get(row.key, ""),
        row.estimated,
        tuple(badges),
    )


def status_facts(row: FrameRow) -> StatusFacts:
    """The foot of the window: how many entries, and the head's first digits."""
    digest = row.line.head.upper()
    head = f"{digest[:4]}\u00b7{digest[4:8]}"
    entries = _tr("{count} entries").format(count=grouped(row.line.entries))
    return StatusFacts((entries, _tr("head {digest}").format(digest=head)), "kg  °C  Pfund mm")
