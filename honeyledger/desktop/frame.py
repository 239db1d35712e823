"""The frame of the window kept true: the line's figures, the mast, the foot.

Service rows in, what the shell shows out; asked anew when anything was recorded, here or at
another station, and every minute, since hours go on by themselves.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, and_more
from honeyledger.desktop.models.frame_facts import MastFacts, StatusFacts, ago
from honeyledger.desktop.models.line_figures import (
    Badge,
    Flow,
    LineFigures,
    PlaceFigure,
    grouped,
)
from honeyledger.desktop.refresh import News, OtherStations
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.services.backups import AtStake, Keeper, at_stake
from honeyledger.services.holding import name_in
from honeyledger.services.line import LinePlace, LineState, line_state
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import Seen, View

MINUTE_MS = 60_000
DAY_MS = 24 * 60 * MINUTE_MS
# Stations are looked for among so many of the newest entries, and named for half a day.
LATELY = 500
LATELY_MS = DAY_MS // 2
MOST_STATIONS = 3
_QUALIFIERS = {
    "hot_room": phrase("waiting"),
    "extraction": phrase("in tank"),
    "drums": phrase("on hand"),
}
# How a unit is called when there is one of the thing.
_SINGULAR = {"yards": phrase("yard"), "supers": phrase("super"), "notes": phrase("note")}


@dataclass(frozen=True, slots=True)
class BackUpMeant:
    """A message offers to back the house up."""


@dataclass(frozen=True, slots=True)
class FrameRow:
    """What is asked in one view for the whole frame."""

    house: str
    operator: str
    unit: MassUnit
    zone: str
    prefix: str
    line: LineState
    seen: tuple[Seen, ...] = ()
    stake: AtStake | None = None


def frame_row(view: View, now_ms: int, operator: str, keeper: Keeper | None) -> FrameRow:
    """In the read lane: everything the frame shows."""
    rules = rules_of(view)
    head = view.head()
    is_kept = keeper is not None and keeper.kept == "here"
    return FrameRow(
        name_in(view, "house", "Honeyledger"),
        name_in(view, f"operator/{operator}", "") if operator else "",
        mass_unit(view),
        rules.zone,
        rules.prefix,
        line_state(view, now_ms),
        tuple(view.stations_after(max(0, head.entry - LATELY))),
        at_stake(view, keeper.last(head.ledger_id)) if keeper and is_kept else None,
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
        say(unit),
        say(_QUALIFIERS.get(row.key, "")),
        row.estimated,
        tuple(badges),
    )


def status_facts(
    row: FrameRow, now_ms: int, station: str = "", alerts: Sequence[Message] = ()
) -> StatusFacts:
    """The foot of the window: what needs a person, the ledger, its backup, the other stations."""
    units = f"{row.unit}  °C  Pfund mm"
    alert = alerts[0].lead.rstrip(".") if alerts else ""
    if len(alerts) > 1:
        alert += f", {and_more(len(alerts) - 1)}"
    count = row.line.entries
    if not count:
        return StatusFacts((_tr("no entries yet"),), units, alert)
    digest = row.line.head.upper()
    head = f"{digest[:4]}\u00b7{digest[4:8]}"
    words = _tr("{count} entry") if count == 1 else _tr("{count} entries")
    parts = [
        words.format(count=grouped(count)),
        _tr("head {digest}").format(digest=head),
        backup_words(row.stake, now_ms),
        station_words(row.seen, now_ms, station),
    ]
    return StatusFacts(tuple(part for part in parts if part), units, alert)


def backup_words(stake: AtStake | None, now_ms: int) -> str:
    """How old the last backup is, and what it lacks."""
    if stake is None:
        return ""
    if stake.kept is None:
        return _tr("not backed up yet")
    age = _tr("backup {ago}").format(ago=ago(max(0, now_ms - stake.kept.at_ms)))
    if not stake.entries:
        return age
    one = stake.entries == 1
    since = _tr("1 entry since") if one else _tr("{n} entries since")
    return f"{age}, {since.format(n=grouped(stake.entries))}"


def station_words(seen: Sequence[Seen], now_ms: int, station: str) -> str:
    """The other stations that recorded anything in the last hours."""
    lately = [
        one
        for one in seen
        if one.station and one.station != station and now_ms - one.recorded_ms <= LATELY_MS
    ]
    if not lately:
        return ""
    names = [f"{one.station} {ago(max(0, now_ms - one.recorded_ms))}" for one in lately]
    if len(names) > MOST_STATIONS:
        names = [*names[:MOST_STATIONS], and_more(len(names) - MOST_STATIONS)]
    return _tr("also here: {stations}").format(stations=", ".join(names))


def alerts_of(stake: AtStake | None, warnings: Sequence[str], now_ms: int) -> list[Message]:
    """What needs a person about the house itself: where it stands, and an old backup."""
    told = [Message(Mark.WARNING, _tr("See to where the house is kept."), one) for one in warnings]
    if stake is not None and stake.is_old(now_ms):
        days = max(1, (now_ms - stake.since_ms) // DAY_MS)
        lead = _tr("Not backed up for a day.") if days == 1 else _tr("Not backed up for {n} days.")
        one = stake.entries == 1
        words = _tr("1 entry is") if one else _tr("{n} entries are")
        lost = _tr("{entries} on this computer alone.").format(
            entries=words.format(n=grouped(stake.entries))
        )
        offer = _tr("Back up now")
        told.append(Message(Mark.WARNING, lead.format(n=days), lost, offer, BackUpMeant()))
    return told


class Frame(QObject):
    """Keeps the shell's frame true.

    Signals:
        heard: a `FrameRow` has come and is shown.
        alerted: a `Message` about the house itself that was not told before.
    """

    heard = Signal(object)
    alerted = Signal(object)

    def __init__(self, desk: Desk, shell: Shell, titles: Mapping[str, str]) -> None:
        super().__init__(shell)
        self._desk, self._shell, self._titles = desk, shell, dict(titles)
        self._mast = MastFacts("Honeyledger")
        self._signing = False
        self._is_first = True
        self._row: FrameRow | None = None
        self._warnings: tuple[str, ...] = ()
        self._told: set[str] = set()
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.jobs.stopped.connect(self._stopped)
        shell.strip.retry.connect(self.ask)
        self.others = OtherStations(desk.jobs, desk.refresh, self._news)
        minute = QTimer(self)
        minute.setInterval(MINUTE_MS)
        minute.timeout.connect(self.ask)
        minute.start()

    def ask(self) -> None:
        """Ask for the line's figures and the foot of the window."""
        house, operator = self._desk.house, self._desk.operator
        keeper = self._desk.keeper
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: frame_row(view, now_ms, operator, keeper)),
            self._answered,
            about=(self, "frame"),
        )

    def ask_warnings(self) -> None:
        """Ask what there is to say about the place where the house is kept."""
        store = self._desk.house.store
        self._desk.jobs.read(
            lambda: tuple(store.warnings()), self._warned, about=(self, "warnings")
        )

    def _warned(self, outcome: Outcome[tuple[str, ...]]) -> None:
        if outcome.value is not None:
            self._warnings = outcome.value
            self._say_status()

    def alerts(self) -> list[Message]:
        """What needs a person about the house itself."""
        stake = self._row.stake if self._row is not None else None
        return alerts_of(stake, self._warnings, self._desk.house.clock())

    def _say_status(self) -> None:
        if self._row is None:
            return
        alerts = self.alerts()
        now_ms = self._desk.house.clock()
        self._shell.show_status(status_facts(self._row, now_ms, self._desk.station, alerts))
        for message in alerts:
            key = message.text if message.about is None else message.action
            if key not in self._told:
                self._told.add(key)
                self.alerted.emit(message)

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
        self._row = row
        self._say_status()
        self._mast = replace(
            self._mast,
            house=row.house,
            season=str(row.line.season),
            operator=row.operator,
            operator_badge=desk.operator,
        )
        self.say_mast()
        self.heard.emit(row)

    def _stopped(self, error: object) -> None:
        """Nothing more is written: what is stored, or our own code, is wrong."""
        words = self.tr("Nothing more is recorded: {why}. Run honeyledger audit in a terminal.")
        self._shell.strip.say(words.format(why=error))

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
