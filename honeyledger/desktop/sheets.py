"""Papers that are no labels, into files among a person's papers: asked in the read lane, drawn in
the work lane, put on record once they are written, said where they are.
"""

import importlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import EVERYTHING, PRINTED, CopiesAsked, Desk, Seen
from honeyledger.desktop.jobs import NotWantedAnyMore, Outcome
from honeyledger.desktop.jobs import Report as Tell
from honeyledger.desktop.language import say as in_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import (
    Paper,
    and_sent,
    paper_message,
    paper_of,
    sheet_into,
)
from honeyledger.desktop.seen import SeenPaper
from honeyledger.documents.printers import ASK_EACH_TIME
from honeyledger.documents.raster import page_sizes_mm
from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_number
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.dispatch_paper import DispatchNote, note_paper
from honeyledger.services.drum_list import DrumList, drum_list
from honeyledger.services.floor_papers import (
    RunPaper,
    StandingPaper,
    run_paper,
    standing_of,
    standing_paper,
)
from honeyledger.services.inspection import Inspection, inspection
from honeyledger.services.printed import (
    DISPATCH_NOTE,
    DRUM_LIST,
    INSPECTORS_PACK,
    RECALL_LETTERS,
    RECALL_REPORT,
    RUN_SHEET,
    STANDING_LIST,
    as_printed,
)
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.recalls import recall_case
from honeyledger.services.report_tables import Report
from honeyledger.services.store import View

_NOT_IN_NAMES = '\\/:*?"<>|'
_DRAWING = "honeyledger.desktop.sheet_drawing"
_KINDS = "honeyledger.services.paper_kinds"
"""By name: all that papers are made of is loaded when the first is printed."""


Sheet = RunPaper | StandingPaper | RecallPaper | Inspection | Report | DispatchNote | DrumList
NOT_PRINTED = Sentence("paper-not-printed", "Nothing was printed.")


@dataclass(frozen=True, slots=True)
class SheetToPrint:
    """A paper to be printed.

    Args:
        name: its file's.
        words: how it is called in words.
        ask: what stands on it now.
        fact: what is recorded of so many copies.
    """

    name: str
    words: str
    ask: Callable[[View], Sheet]
    fact: Callable[[Sheet, int], Printed]


def print_sheet(
    desk: Desk,
    what: SheetToPrint,
    then: Callable[[Outcome[Paper]], None],
    progress: Tell | None = None,
) -> None:
    """Print a paper; where the person wants to look first, how many copies are asked for.

    Args:
        progress: told which page of how many is drawn, once it takes a while.
    """
    _SheetPrint(desk, what, then, progress).begin()


class _SheetPrint:
    """One print of a paper, from the question to the printer."""

    def __init__(
        self,
        desk: Desk,
        what: SheetToPrint,
        then: Callable[[Outcome[Paper]], None],
        progress: Tell | None,
    ) -> None:
        self._desk, self._what, self._then, self._progress = desk, what, then, progress
        self._drawn: tuple[int, bytes] = (0, b"")
        self._in_sight = 0

    def begin(self) -> None:
        """Ask what stands on it, and go on with it."""
        desk, looks = self._desk, self._desk.looks_first

        def ask() -> tuple[Sheet, str]:
            goes_to = desk.station_papers().sheets_go_to() if looks else ""
            return desk.house.ask(self._what.ask), goes_to

        def asked(outcome: Outcome[tuple[Sheet, str]]) -> None:
            if outcome.value is None:
                self._then(Outcome(error=outcome.error))
            elif looks:
                self._look(*outcome.value)
            else:
                self._draw(outcome.value[0], 1)

        desk.jobs.read(ask, asked)

    def _look(self, sheet: Sheet, goes_to: str) -> None:
        """Show it, and ask how many."""

        def answered(copies: int) -> None:
            self._in_sight = 0
            if copies:
                self._draw(sheet, copies)
            else:
                self._then(Outcome(error=Refusal(NOT_PRINTED)))

        goes_to = "" if goes_to == ASK_EACH_TIME else goes_to
        see = partial(self._see, sheet)
        asked = CopiesAsked(self._what.words, sheet.again, goes_to, see, self._desk.jobs)
        self._desk.ask_copies(asked, answered)

    def _see(
        self, sheet: Sheet, copies: int, tell: Callable[[Seen], None], progress: Tell
    ) -> None:
        """Draw it, to be looked at; what is drawn for that is printed."""
        desk, name = self._desk, self._what.words
        self._in_sight = copies

        def task(report: Tell) -> SeenPaper:
            def go_on(page: int, of: int) -> None:
                if self._in_sight != copies or desk.jobs.is_closing:
                    raise NotWantedAnyMore
                report(page, of)

            pdf: bytes = importlib.import_module(_DRAWING).told_pdf(
                go_on, sheet, desk.assets, desk.unit, copies
            )
            self._drawn = copies, pdf
            sizes = page_sizes_mm(pdf)
            return SeenPaper(name, pdf, len(sizes), sizes[0])

        def drawn(outcome: Outcome[SeenPaper]) -> None:
            told = outcome.value or outcome.refusal
            if told is not None:
                tell(told)

        desk.jobs.work(task, drawn, progress=progress)

    def _draw(self, sheet: Sheet, copies: int) -> None:
        many, pdf = self._drawn
        pdf = pdf if many == copies else b""
        self._desk.jobs.work(
            lambda report: _write(self._desk, self._what.name, sheet, copies, pdf, report),
            and_sent(self._desk, self._then, partial(self._keep, sheet, copies), self._progress),
            progress=self._progress,
        )

    def _keep(self, sheet: Sheet, copies: int, go_on: Callable[[], None]) -> None:
        """On record before it is sent."""
        if self._desk.is_visit:
            go_on()
            return
        facts = [self._what.fact(sheet, copies)]
        self._desk.record(facts, self._desk.said_now(), lambda _done: go_on(), changes=PRINTED)


def print_note(desk: Desk, code: str, then: Callable[[Outcome[Paper]], None]) -> None:
    """Print a dispatch note."""
    now_ms, operator = desk.house.clock(), desk.operator

    def ask(view: View) -> DispatchNote:
        note = note_paper(view, code)
        return as_printed(view, note, DISPATCH_NOTE, note.code, now_ms, operator)

    words = QCoreApplication.translate("sheets", "The note {code}").format(code=code)
    fact = partial(_fact, DISPATCH_NOTE, code)
    print_sheet(desk, SheetToPrint(desk.code_of(code) or code, words, ask, fact), then)


def print_report(
    desk: Desk,
    report: Report,
    named: tuple[str, str, str, str],
    then: Callable[[Outcome[Paper]], None],
) -> None:
    """Print a report that is ready.

    Args:
        named: its file's name, how it is called in words, and the word and the thing under which
            its prints are on record.
    """
    name, words, kind, of = named
    now_ms, operator = desk.house.clock(), desk.operator

    def ask(view: View) -> Report:
        return as_printed(view, report, kind, of, now_ms, operator)

    print_sheet(desk, SheetToPrint(name, words, ask, partial(_fact, kind, of)), then)


def _fact(kind: str, of: str, _what: Sheet, copies: int) -> Printed:
    return Printed(kind, of, copies)


class Sheets:
    """Prints the sheets of one station, says where they are, opens again what it printed last.

    Args:
        say: where it is said.
        opens: whether a paper is shown once it is written, unless a printer takes it.
    """

    def __init__(self, desk: Desk, say: Callable[[Message], None], *, opens: bool = False) -> None:
        self._desk, self._say, self._opens = desk, say, opens
        self._printed = ""
        self._file = Path()
        desk.refresh.watch(EVERYTHING, self._is_old, me=self)

    def _is_old(self) -> None:
        """Something was recorded since: what is printed next is made anew."""
        self._printed = ""

    def print_run(self, run: str) -> None:
        """A run's sheet as it is now."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The run sheet")
        self._print(
            SheetToPrint(
                f"Run sheet {run}",
                words,
                lambda view: run_paper(view, run, now_ms, operator),
                partial(_fact, RUN_SHEET, run),
            )
        )

    def print_standing(self, room: str, row: str) -> None:
        """What should stand in a room or a row."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The list of what should stand there")
        name = " ".join(part for part in ("Standing", room, row) if part)
        name = "".join("-" if sign in _NOT_IN_NAMES else sign for sign in name)

        def ask(view: View) -> StandingPaper:
            return standing_paper(view, room, row, now_ms, operator)

        def fact(what: Sheet, copies: int) -> Printed:
            assert isinstance(what, StandingPaper)
            return Printed(STANDING_LIST, standing_of(what.room, what.row), copies)

        self._print(SheetToPrint(name, words, ask, fact))

    def print_drums(self, note: str = "") -> None:
        """The drums of a dispatch note, or all in the house."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The drum list")

        def ask(view: View) -> DrumList:
            drums = drum_list(view, [note] if note else [])
            return as_printed(view, drums, DRUM_LIST, drums.of, now_ms, operator)

        name = f"Drum list {note}".strip()
        self._print(SheetToPrint(name, words, ask, partial(_fact, DRUM_LIST, note)))

    def print_recall(self, case: str, *, letters: bool) -> None:
        """The report of a recall as it is now, or the letters to all who have some of it."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The report")
        name, kind = f"Recall {case}", RECALL_REPORT
        if letters:
            words = QCoreApplication.translate("sheets", "The letters")
            name, kind = f"Recall {case} letters", RECALL_LETTERS

        def ask(view: View) -> RecallPaper:
            paper = RecallPaper(recall_case(view, now_ms, case), letters)
            return as_printed(view, paper, kind, paper.case.code, now_ms, operator)

        self._print(SheetToPrint(name, words, ask, partial(_fact, kind, case)))

    def print_pack(self, code: str) -> None:
        """All that an inspector asks about one jar or lot, without customers."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The pack")
        self._print(
            SheetToPrint(
                f"Pack {code}",
                words,
                lambda view: inspection(view, now_ms, code, operator),
                partial(_fact, INSPECTORS_PACK, code),
            )
        )

    def print_kind(self, kind: str, about: str = "") -> None:
        """A paper of a kind as it is now."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        kinds = importlib.import_module(_KINDS)
        title: str = kinds.KINDS[kind].title
        name = "".join("-" if one in _NOT_IN_NAMES else one for one in f"{title} {about}".strip())

        def ask(view: View) -> Report:
            report: Report = kinds.paper_of(view, now_ms, kind, about, operator)
            return report

        def fact(report: Sheet, copies: int) -> Printed:
            made: Printed = kinds.put_on_record(kind, about, report, copies)
            return made

        self._print(SheetToPrint(name, in_words(title), ask, fact))

    def print_history(self, code: str) -> None:
        """What became of a lot; of what is no lot, the balance of the house."""
        if code and self._desk.letter_of(code) in LOT_LETTERS:
            self.print_kind("lot-history", code)
        else:
            self.print_kind("mass-balance")

    def open_printed(self) -> bool:
        """Open what was printed last, where nothing was recorded since: whether it was."""
        if self._printed:
            self._desk.open_paper(self._file)
        return bool(self._printed)

    def _print(self, what: SheetToPrint) -> None:
        """Print it, and once it is written record that it was printed.

        While nothing was recorded since, the one that was printed is opened: it is no reprint.
        """
        if self._printed == what.name and not self._desk.looks_first:
            self.open_printed()
            return
        print_sheet(
            self._desk,
            what,
            lambda done: self._written(what.name, what.words, done),
            lambda page, of: self._say(_drawing(what.words, page, of)),
        )

    def _written(self, name: str, words: str, outcome: Outcome[Paper]) -> None:
        what = paper_of(outcome)
        if what is None:
            return
        if isinstance(what, Paper):
            self._printed, self._file = name, what.file
            if self._opens and not what.printer and what.to_ask is None:
                self.open_printed()
        failed = QCoreApplication.translate("sheets", "Nothing printed.")
        where = QCoreApplication.translate("sheets", "is in {file}; Ctrl+P opens it.")
        if self._opens:
            where = QCoreApplication.translate("sheets", "is in {file}.")
        self._say(paper_message(what, words, failed, where))


def _drawing(words: str, page: int, of: int) -> Message:
    """What is said while a paper of many pages is drawn."""
    said = QCoreApplication.translate("sheets", "is drawn: page {page} of {of}.")
    text = said.format(page=format_number(page), of=format_number(of))
    return Message(Mark.WORKING, words, text)


def _write(desk: Desk, name: str, what: Sheet, copies: int, pdf: bytes, tell: Tell) -> Paper:
    """The paper in its file.

    Args:
        pdf: as it was looked at; b"" where it was not.
    """

    def draw() -> bytes:
        drawing = importlib.import_module(_DRAWING)
        made: bytes = pdf or drawing.told_pdf(tell, what, desk.assets, desk.unit, copies)
        return made

    return sheet_into(desk, name, draw)
