"""What the set-up page knows: what is registered, which kind is in hand, what comes next."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from zoneinfo import available_timezones

from PySide6.QtCore import Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.desktop.refresh import ANEW
from honeyledger.desktop.stations.setup.asks import Deed, SetupKind, tr
from honeyledger.desktop.stations.setup.deeds import computer_settings, deed_facts
from honeyledger.desktop.stations.setup.first_way import next_on_path
from honeyledger.desktop.stations.setup.forms import SetupForms
from honeyledger.desktop.stations.setup.kinds import facts_of
from honeyledger.desktop.stations.setup.printer_deeds import printer_said, ways_said
from honeyledger.desktop.stations.setup.tables import problems_of, take_in
from honeyledger.documents.stock import Stock
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.imports import ImportResult
from honeyledger.services.house import Recorded
from honeyledger.services.setup_page import SetupPage, is_set_up, setup_page
from honeyledger.settings import Settings


class SetupPresenter(SetupForms):
    """Setting a house up.

    Signals:
        shown: a `SetupPage` has come.
        saved: a `Message` after recording.
        refused: a `Refusal`; the form stays.
        noted: what the ledger had to say to what was recorded, as messages.
        problems: all that is wrong with a table, as messages.
        looked: how the window is to look from now on.
        working: whether something is being recorded.
        zones_known: the names of all time zones; they stand in hundreds of files.
    """

    shown = Signal(object)
    saved = Signal(object)
    refused = Signal(object)
    noted = Signal(object)
    problems = Signal(object)
    looked = Signal(str)
    working = Signal(bool)
    zones_known = Signal(object)

    def __init__(self, desk: Desk, zone: str) -> None:
        super().__init__(desk, zone)
        self._after = ""
        self._notes: Sequence[Message] = ()
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.jobs.work(lambda _report: sorted(available_timezones()), self._zones_came)
        self.station.ask(self._printers_came)

    def _zones_came(self, outcome: Outcome[list[str]]) -> None:
        self.zones_known.emit(outcome.value or [])

    def turn(self, key: str) -> None:
        """Take another kind in hand; for printers the system is asked, too."""
        super().turn(key)
        if self.kind.deed in (Deed.PRINTER, Deed.PAPERS):
            self.station.ask_names(self._names_came)

    def _names_came(self, _outcome: Outcome[object]) -> None:
        """They are offered; what is being typed stays."""
        if self.page is not None:
            self.shown.emit(self.page)

    def _printers_came(self, outcome: Outcome[object]) -> None:
        if outcome.refusal is not None:
            self.refused.emit(outcome.refusal)
        if self.page is not None:
            self.shown.emit(self.page)
            if self.kind.deed is Deed.PAPERS and self.kind.key not in self.typed:
                self.turn(self.kind.key)

    @property
    def stocks(self) -> tuple[Stock, ...]:
        """The label stocks there are: those shipped, and the house's own."""
        stocks = self.station.stocks(self.page)
        return tuple(stocks.named(name) for name in stocks.names)

    # What is registered.

    def ask(self) -> None:
        """Ask what is registered."""
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(setup_page), self._answered, about=(self, "registers")
        )

    def _answered(self, outcome: Outcome[SetupPage]) -> None:
        if outcome.value is None:
            return
        first, self.page = self.page is None, outcome.value
        self.shown.emit(self.page)
        after, self._after = self._after, ""
        if after:
            self._go_on(after)
            if self._notes:
                self.noted.emit(self._notes)
        elif first:
            self.restore(self.page)

    # Recording.

    def save(self, typed: Mapping[str, str]) -> None:
        """Record what the form says."""
        page, kind = self.page, self.kind
        if page is None:
            return
        try:
            if kind.deed is Deed.COMPUTER:
                self._remember(typed)
            elif kind.deed is Deed.TABLE:
                self._take_in(typed)
            elif kind.deed in (Deed.PRINTER, Deed.PAPERS):
                self._keep_papers(kind, typed, page)
            else:
                self._record(self._facts(kind, typed, page), typed)
        except Refusal as refusal:
            self.refused.emit(refusal)

    def _facts(
        self, kind: SetupKind, typed: Mapping[str, str], page: SetupPage
    ) -> Sequence[object]:
        if kind.deed is Deed.REGISTER:
            return facts_of(kind, typed, page, self._zone)
        today = house_day(self._desk.house.clock(), self._desk.zone)
        return (deed_facts(kind, typed, page, today),)

    def _record(self, facts: Sequence[object], typed: Mapping[str, str]) -> None:
        kind, name = self.kind, typed.get("name", "").strip()
        self.working.emit(True)
        said = self._desk.said()
        said = replace(said, command=self.command_of(kind, said.command))
        self._desk.record(facts, said, lambda outcome: self._saved(kind, name, outcome))

    def _saved(self, kind: SetupKind, name: str, outcome: Outcome[Recorded]) -> None:
        self.working.emit(False)
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
            return
        codes = [code for code in outcome.value.given if code]
        words = tr("{name} is registered.")
        if kind.deed is Deed.CHECK:
            words = tr("The check is written down.")
        elif len(codes) == 1:
            words = tr("{name} is registered as {code}.")
        sentence = words.format(name=name, code=codes[0] if codes else "")
        notes = [Message(Mark.NOTE, text) for text in outcome.value.notes]
        self._done(kind, recorded(sentence, outcome.value.entries[-1].id), notes)

    def _done(self, kind: SetupKind, message: Message, notes: Sequence[Message] = ()) -> None:
        self.forget(kind)
        self.saved.emit(message)
        self._after, self._notes = kind.key, notes
        self.ask()

    def _go_on(self, after: str) -> None:
        """Something was recorded: a new house goes on, any other stays with the kind."""
        self.way.seen.add(after)
        page = self.page
        assert page is not None
        kind = next(one for one in self.kinds if one.key == after)
        if not self.way.is_on or kind.several:
            self.turn(after)
            return
        following = next_on_path(after, page, self.way.seen)
        if following:
            self.turn(following)
        elif is_set_up(page):
            self.complete()
        else:
            self.turn(after)

    def _remember(self, typed: Mapping[str, str]) -> None:
        desk = self._desk
        before = desk.settings
        desk.remember(computer_settings(before, typed, desk.station))
        desk.station = desk.settings.station or desk.station
        if desk.settings.look != before.look:
            self.looked.emit(desk.settings.look)
        self._done(self.kind, Message(Mark.READY, tr("Kept.")))
        if _of_the_window(desk.settings) != _of_the_window(before):
            desk.refresh.broadcast(ANEW)

    def _keep_papers(self, kind: SetupKind, typed: Mapping[str, str], page: SetupPage) -> None:
        """What this station's printers take is kept on this computer."""
        station = self.station
        if kind.deed is Deed.PRINTER:
            papers = station.papers.with_printer(printer_said(typed))
        else:
            ways = ways_said(typed, station.papers, station.stocks(page))
            papers = station.papers.with_ways(ways)

        def kept(outcome: Outcome[object]) -> None:
            if outcome.error is not None:
                self.refused.emit(refusal_of(outcome))
            else:
                self._done(kind, Message(Mark.READY, tr("Kept.")))

        station.keep(papers, kept)

    def calibrate(self, typed: Mapping[str, str]) -> None:
        """Print the page that shows how true a printer prints."""
        page = self.page
        if page is None:
            return

        def printed(outcome: Outcome[Paper]) -> None:
            if outcome.value is None:
                self.refused.emit(refusal_of(outcome))
                return
            self.calibrated = outcome.value.file
            lead, failed = tr("The calibration page"), tr("It is not printed.")
            self.saved.emit(paper_message(outcome.value, lead, failed))

        try:
            self.station.calibrate(typed, page, printed)
        except Refusal as refusal:
            self.refused.emit(refusal)

    def _take_in(self, typed: Mapping[str, str]) -> None:
        kind = self.kind
        self.working.emit(True)
        self.problems.emit([])
        take_in(self._desk, typed, lambda outcome: self._taken_in(kind, outcome))

    def _taken_in(self, kind: SetupKind, outcome: Outcome[ImportResult]) -> None:
        self.working.emit(False)
        result = outcome.value
        if result is None:
            refusal = refusal_of(outcome)
            self.problems.emit(problems_of(refusal))
            self.refused.emit(refusal)
            return
        message = Message(Mark.NOTE, result.text)
        if result.recorded is not None and not result.again:
            message = recorded(result.text, result.recorded.entries[-1].id)
        self._done(kind, message)


def _of_the_window(settings: Settings) -> tuple[str, str]:
    """What a window has from its beginning."""
    return settings.scale, settings.language
