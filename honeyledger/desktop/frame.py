"""The frame of the window kept true: the line's figures, the mast, the foot.

Service rows in, what the shell shows out; asked anew when anything was recorded, here or at
another station, and every minute, since hours go on by themselves.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.frame_facts import MastFacts, StatusFacts
from honeyledger.desktop.models.line_figures import (
    Badge,
    Flow,
    LineFigures,
    PlaceFigure,
    grouped,
)
from honeyledger.desktop.refresh import News, OtherStations
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.services.holding import name_in
from honeyledger.services.line import LinePlace, LineState, line_state
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

MINUTE_MS = 60_000
_QUALIFIERS = {"hot_room": "waiting", "extraction": "in tank", "drums": "on hand"}
# How a unit is called when there is one of the thing.
_SINGULAR = {"yards": "yard", "supers": "super", "notes": "note"}


@dataclass(frozen=True, slots=True)
class FrameRow:
    """What is asked in one view for the whole frame."""

    house: str
    operator: str
    unit: MassUnit
    zone: str
    prefix: str
    line: LineState


def frame_row(view: View, now_ms: int, operator: str) -> FrameRow:
    """In the read lane: everything the frame shows."""
    rules = rules_of(view)
    return FrameRow(
        name_in(view, "house", "Honeyledger"),
        name_in(view, f"operator/{operator}", "") if operator else "",
        mass_unit(view),
        rules.zone,
        rules.prefix,
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
        Flow((flow.grams + 500) // 1000, flow.colour / 10 if flow.colour is not None else None)
        for flow in line.flows
    )
    return LineFigures(places, flows)


def _place(name: str, row: LinePlace) -> PlaceFigure:
    badges = []
    if row.held:
        badges.append(Badge(Mark.HOLD, row.held, _tr("on hold")))
    if row.warnings:
        badges.append(Badge(Mark.WARNING, row.warnings, _tr("need a person")))
    unit = _SINGULAR.get(row.unit, row.unit) if row.amount == 1 else row.unit
    return PlaceFigure(
        row.key,
        name,
        row.amount,
        unit,
        _QUALIFIERS.get(row.key, ""),
        row.estimated,
        tuple(badges),
    )


def status_facts(row: FrameRow) -> StatusFacts:
    """The foot of the window: how many entries, and the head's first digits."""
    count = row.line.entries
    if not count:
        return StatusFacts((_tr("no entries yet"),), f"{row.unit}  °C  Pfund mm")
    digest = row.line.head.upper()
    head = f"{digest[:4]}\u00b7{digest[4:8]}"
    words = _tr("{count} entry") if count == 1 else _tr("{count} entries")
    entries = words.format(count=grouped(count))
    return StatusFacts(
        (entries, _tr("head {digest}").format(digest=head)), f"{row.unit}  °C  Pfund mm"
    )


class Frame(QObject):
    """Keeps the shell's frame true.

    Signals:
        heard: a `FrameRow` has come and is shown.
    """

    heard = Signal(object)

    def __init__(self, desk: Desk, shell: Shell, titles: Mapping[str, str]) -> None:
        super().__init__(shell)
        self._desk, self._shell, self._titles = desk, shell, dict(titles)
        self._mast = MastFacts("Honeyledger")
        self._signing = False
        self._is_first = True
        desk.refresh.watch(EVERYTHING, self.ask)
        shell.strip.retry.connect(self.ask)
        self.others = OtherStations(desk.jobs, desk.refresh, self._news)
        minute = QTimer(self)
        minute.setInterval(MINUTE_MS)
        minute.timeout.connect(self.ask)
        minute.start()

    def ask(self) -> None:
        """Ask for the line's figures and the foot of the window."""
        house, operator = self._desk.house, self._desk.operator
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: frame_row(view, now_ms, operator)),
            self._answered,
            about=(self, "frame"),
        )

    def _answered(self, outcome: Outcome[FrameRow]) -> None:
        row = outcome.value
        if row is None:
            if outcome.error is not None:
                self._shell.strip.say(self.tr("The ledger cannot be reached. Nothing is lost."))
            return
        self._shell.strip.say("")
        if self._is_first:
            # The pages ask at the same moment: they need not be told of what they have just seen.
            self._is_first = False
            self.others.skip_to(row.line.entries)
        desk = self._desk
        desk.unit, desk.zone, desk.prefix = row.unit, row.zone, row.prefix
        self._shell.show_line(line_figures(row.line))
        self._shell.show_status(status_facts(row))
        self._mast = replace(
            self._mast,
            house=row.house,
            season=str(row.line.season),
            operator=row.operator,
            operator_badge=desk.operator,
        )
        self.say_mast()
        self.heard.emit(row)

    def want_operator(self, wanted: bool) -> None:
        """Ask in the mast who works here, where nobody has said so."""
        self._signing = wanted
        self.say_mast()

    def say_mast(self) -> None:
        """Say whose house it is, which station is open and who works there."""
        facts = replace(self._mast, station=self._titles.get(self._shell.open_key(), ""))
        if self._signing and not self._desk.operator:
            facts = replace(facts, operator=self.tr("Who works here?"), operator_badge="?")
        self._shell.show_mast(facts)

    def _news(self, head: int) -> News:
        """In the read lane: whether another station has recorded anything since."""
        newest = self._desk.house.ask(_head)
        return newest, EVERYTHING if newest > max(head, self._desk.newest) else frozenset()


def _head(view: View) -> int:
    return view.head().entry
