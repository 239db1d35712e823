"""What every station works at: the house, the lanes, the broadcast, this computer's settings.

Handed to each station when it is made; nothing of it is global.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.jobs import Jobs, LaneClosed, Outcome, Report
from honeyledger.desktop.messages import Message
from honeyledger.desktop.refresh import Refresh
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.tokens import Density
from honeyledger.documents.printers import StationPapers, read_printers
from honeyledger.documents.stock import Stock
from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.moments import Moment
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.services.backups import Keeper
from honeyledger.services.house import House, Recorded, Said
from honeyledger.settings import Settings, data_folder

if TYPE_CHECKING:  # presenters work at a desk too, and know no widgets
    from PySide6.QtWidgets import QWidget

    from honeyledger.desktop.scanning import Scan

Seen = SeenPaper | Refusal
"""What a paper looks like, or why it cannot be shown."""
EVERYTHING = frozenset({"ledger"})
PRINTED = frozenset({"printed"})
"""A label was put on record: no gram moved, so that only lists of entries change."""
NOT_TAKEN = Sentence(
    "ledger-did-not-take-it",
    "The ledger did not take it ({why}). Try again: it is kept once, however often you try.",
)
NO_MORE_TAKEN = Sentence(
    "no-more-taken",
    "Nothing more is recorded in this window. Run honeyledger audit in a terminal, then start "
    "the window again.",
)


def refusal_of(outcome: Outcome[Any]) -> Refusal:
    """Why something was not recorded, in a sentence, whatever went wrong."""
    if outcome.refusal is not None:
        return outcome.refusal
    if outcome.is_fatal or isinstance(outcome.error, LaneClosed):
        return Refusal(NO_MORE_TAKEN)
    return Refusal(NOT_TAKEN, why=type(outcome.error).__name__)


def _own_drafts() -> Drafts:
    return Drafts(data_folder() / "drafts")


def _own_papers() -> Path:
    return data_folder() / "papers"


def _stay_closed(_paper: Path) -> None:
    """Nothing is opened unless the program says with what."""


def _choose_none(_parent: "QWidget", _folder: Path) -> None:
    """No folder is chosen unless the program says how."""


def _choose_no_file(_parent: "QWidget") -> None:
    """No file is chosen unless the program says how."""


def _no_scan() -> None:
    """Nothing was scanned yet."""


def _as_usual(_asked: "LabelsAsked", then: "Callable[[LabelsWanted | None], None]") -> None:
    """A sheet is whole, and one of each is printed, unless the program asks."""
    then(LabelsWanted())


def _one_copy(_asked: "CopiesAsked", then: "Callable[[int], None]") -> None:
    """One copy is printed, unless the program asks."""
    then(1)


def _nothing_worth_knowing(_copies: int) -> Sequence[Phrase]:
    """Nothing is worth knowing of these labels."""
    return ()


def _print_nowhere(_sheets: object, _then: Callable[[Callable[[Report], str]], None]) -> None:
    """No dialog is shown unless the program says how."""


def _forget(_settings: Settings) -> None:
    """Nothing is written unless the program says where."""


@dataclass(frozen=True, slots=True)
class PadTime:
    """When what is typed in from the paper pad happened, and how far that may be off."""

    happened: Moment
    unsure_ms: int


@dataclass(frozen=True, slots=True)
class LabelsAsked:
    """Labels about to be printed: how many of each, and from which label of a sheet on?

    Args:
        stock: what they are printed on.
        labels: how many are to be printed, where of each one comes.
        first: the first free label of a part-used sheet as far as this station knows.
        see: draws them as they are wanted, tells what they look like, and how far it is;
            None where they are not looked at.
        jobs: the lanes in which pages are made into pictures.
        forms: which labels of theirs there are, each with its word; none where there is one.
        form: which of them this is.
        notes: what is worth knowing of so many copies of each.
        other: asks the same of another of their labels, and tells what it is, or why not.
        goes_to: the printer that takes them; "" for a PDF only.
    """

    stock: Stock
    labels: int
    first: int = 1
    see: "Callable[[LabelsWanted, Callable[[Seen], None], Report], None] | None" = None
    jobs: Jobs | None = None
    forms: tuple[tuple[str, str], ...] = ()
    form: str = ""
    notes: "Callable[[int], Sequence[Phrase]]" = _nothing_worth_knowing
    other: "Callable[[str, Callable[[LabelsAsked | Refusal], None]], None] | None" = None
    goes_to: str = ""


@dataclass(frozen=True, slots=True)
class CopiesAsked:
    """A paper about to be printed: how many of it?

    Args:
        title: how the paper is called.
        again: which print of it this is, after the first.
        goes_to: the printer that takes it; "" for a PDF only.
        see: draws so many copies, tells what they look like, and which page is drawn; None where
            it is not looked at.
        jobs: the lanes in which pages are made into pictures.
    """

    title: str
    again: int = 0
    goes_to: str = ""
    see: "Callable[[int, Callable[[Seen], None], Report], None] | None" = None
    jobs: Jobs | None = None


@dataclass(frozen=True, slots=True)
class LabelsWanted:
    """How labels are printed: from which label of a sheet on, and how many of each."""

    first: int = 1
    copies: int = 1


@dataclass(slots=True)
class Desk:
    """One window's surroundings.

    Args:
        operator: the code of who works here now, "" for nobody.
        station: the name under which this computer's entries are kept.
        unit, zone, prefix: the house's own, as last heard; the window keeps them true.
        drafts: where half-filled forms are kept.
        papers: the folder labels and reports are written to.
        open_paper: shows a written paper in the system's own viewer.
        keep_settings: writes this computer's settings; it runs in the work lane.
        next_run: pallets in the order in which somebody here means them to go in next.
        pad: while somebody types from the paper pad, when that happened; None: now.
        newest: the newest entry recorded here, of which everyone here has been told.
        came_from: the station that was open before the one that is; the window keeps it true.
        last_scan: how the code came that was scanned last; the window keeps it true.
        keeper: who makes backups of the house; None where that is not this window's affair.
        choose_folder: asks the person for a folder, beginning at one; None where none is chosen.
        choose_file: asks for a table's file; None where none is chosen.
        printers: the file that keeps what this station's printers take; None where none does.
        ask_labels: shows labels that are to be printed, and asks how; None where they are not.
        ask_copies: asks how many of a paper; 0 where it is not to be printed.
        looks_first: whether the label printed now is shown first, whatever it goes to.
        ask_printer: lets the system's own dialog ask where pages go; given what prints there.
        free_labels: by stock, the first label that was left of the last sheet printed here.
        is_visit: a visitor looks at the house, and nothing is recorded.
        visits_next: whether the window that follows this one is for a visitor.
    """

    house: House
    jobs: Jobs
    refresh: Refresh
    settings: Settings
    assets: Path
    operator: str = ""
    run: str = ""
    sizes: dict[str, int] = field(default_factory=dict)
    station: str = ""
    unit: MassUnit = "kg"
    zone: str = "UTC"
    prefix: str = ""
    drafts: Drafts = field(default_factory=_own_drafts)
    papers: Path = field(default_factory=_own_papers)
    open_paper: Callable[[Path], object] = _stay_closed
    keep_settings: Callable[[Settings], object] = _forget
    next_run: tuple[str, ...] = ()
    pad: PadTime | None = None
    newest: int = 0
    came_from: str = ""
    last_scan: "Callable[[], Scan | None]" = _no_scan
    keeper: Keeper | None = None
    choose_folder: "Callable[[QWidget, Path], Path | None]" = _choose_none
    choose_file: "Callable[[QWidget], Path | None]" = _choose_no_file
    printers: Path | None = None
    ask_labels: Callable[[LabelsAsked, Callable[[LabelsWanted | None], None]], object] = _as_usual
    ask_copies: Callable[[CopiesAsked, Callable[[int], None]], object] = _one_copy
    looks_first: bool = False
    ask_printer: Callable[[Any, Callable[[Callable[[Report], str]], None]], object] = (
        _print_nowhere
    )
    free_labels: dict[str, int] = field(default_factory=dict)
    is_visit: bool = False
    visits_next: bool = False

    def said(self, *, run: str = "") -> Said:
        """Who says it, when, at this station, with an id made now, so that a retry writes once."""
        said = self.said_now()
        if self.pad is not None:
            said = replace(said, happened=self.pad.happened, unsure_ms=self.pad.unsure_ms)
        return replace(said, run=run)

    def said_now(self) -> Said:
        """The same of what is done now, whatever is typed from paper: a mistake put right."""
        return Said(
            operator=self.operator,
            station=self.station,
            command=self.house.new_id(),
        )

    def letter_of(self, text: str) -> str:
        """The letter of a code as scanned or typed; "" for what is no code of this house."""
        try:
            code = parse_code(text, self.prefix)
        except Refusal:
            return ""
        return "J" if isinstance(code, JarCode) else code.letter

    def code_of(self, text: str) -> str:
        """A code in the form it is printed in; "" for what is no code of this house."""
        try:
            return str(parse_code(text, self.prefix))
        except Refusal:
            return ""

    def remember(self, settings: Settings) -> None:
        """Work with these settings from now on, and keep them for the next start."""
        self.settings = settings
        self.jobs.work(lambda _report: self.keep_settings(settings), lambda _outcome: None)

    @property
    def backups(self) -> Path:
        """The folder backups are written to: the one chosen, else beside the other papers."""
        chosen = self.settings.backups
        return Path(chosen).expanduser() if chosen else self.papers / "Backups"

    def station_papers(self) -> StationPapers:
        """What this station's printers take; asked in a lane, since it reads a file.

        Raises:
            Refusal: the file cannot be read.
        """
        return read_printers(self.printers) if self.printers is not None else StationPapers()

    def look_first(self, print_it: Callable[[], object]) -> None:
        """Print what would be printed; a label is seen first, and asked about."""
        self.looks_first = True
        try:
            print_it()
        finally:
            self.looks_first = False

    def density(self, usual: Density) -> Density:
        """How large things are at a station: as it asks, unless this computer's settings say."""
        chosen = self.settings.density
        return usual if chosen == "station" else Density(chosen)

    def record(
        self,
        all_facts: Sequence[Any],
        said: Said,
        then: Callable[[Outcome[Recorded]], None],
        me: object = None,
        changes: frozenset[str] = EVERYTHING,
    ) -> None:
        """Record in the write lane; tell everyone what changed when it is written."""

        self._write(lambda: self.house.record_all(all_facts, said), then, me, changes)

    def reverse_chain(
        self,
        entry: int,
        reason: str,
        seen: Sequence[int],
        then: Callable[[Outcome[Recorded]], None],
    ) -> None:
        """Reverse an entry with all that is built on it, as it was seen, in the write lane."""
        said = self.said_now()
        self._write(lambda: self.house.reverse_chain(entry, reason, said, seen), then)

    def _write(
        self,
        task: Callable[[], Recorded],
        then: Callable[[Outcome[Recorded]], None],
        me: object = None,
        changes: frozenset[str] = EVERYTHING,
    ) -> None:
        def written(outcome: Outcome[Recorded]) -> None:
            if outcome.value is not None:
                self.newest = max(self.newest, outcome.value.entries[-1].id)
                self.refresh.broadcast(changes, me)
            then(outcome)

        self.jobs.write(task, written)


class StationView(Protocol):
    """What the window asks of a station's page."""

    @property
    def widget(self) -> "QWidget":
        """The page."""

    @property
    def asks(self) -> "StationAsks":
        """What it asks of the window."""

    def begin(self) -> None:
        """The station was opened: put the keyboard where work begins."""

    def take_code(self, code: str) -> bool:
        """A code was scanned or typed: whether the station makes use of it."""

    def handle(self, action: str) -> bool:
        """A key of the table ("print", "repeat", "clear"): whether the station acts on it."""


class StationAsks(QObject):
    """What a station asks of the window.

    Signals:
        card: open the card of a lot, by its code.
        open: open another station, by its key.
        trace: trace a code.
        hand: open another station, by its key, with these codes scanned there.
        reverse: take back an entry that was just recorded, by its number.
        say: a message for the toast line.
        kept: show how the house is kept, and its backups.
        complain: take in a complaint about a lot or a jar, by its code.
        sell: open dispatch with drums on the note in hand, by their codes.
        grown: a part of the page was made only now; its tables are to be looked after.
    """

    card = Signal(str)
    open = Signal(str)
    trace = Signal(str)
    hand = Signal(str, object)
    reverse = Signal(int)
    say = Signal(object)
    kept = Signal()
    complain = Signal(str)
    sell = Signal(object)
    grown = Signal()

    def told(self, message: Message) -> None:
        """Say a message."""
        self.say.emit(message)

    def of_row(self, action: str, key: str) -> bool:
        """Open the card, or the trace, of the row in hand; whether that was asked."""
        doing = {"card": self.card.emit, "trace-this": self.trace.emit}.get(action)
        if doing is None or not key:
            return False
        doing(key)
        return True
