"""A run's sheet and the list of what should stand in a room, into files among a person's papers.

Asked in the read lane, drawn in the work lane, as labels are; said where they are.
"""

import importlib
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import say as in_words
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import (
    Paper,
    asking_printer,
    paper_message,
    paper_of,
    sheet_into,
)
from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.services.floor_papers import RunPaper, StandingPaper, run_paper, standing_paper
from honeyledger.services.inspection import Inspection, inspection
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.recalls import recall_case
from honeyledger.services.report_tables import Report
from honeyledger.services.store import View

_NOT_IN_NAMES = '\\/:*?"<>|'
_DRAWING = "honeyledger.desktop.sheet_drawing"
_KINDS = "honeyledger.services.paper_kinds"
"""By name: all that papers are made of is loaded when the first is printed."""


Sheet = RunPaper | StandingPaper | RecallPaper | Inspection | Report


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
        self._print(f"Run sheet {run}", words, lambda view: run_paper(view, run, now_ms, operator))

    def print_standing(self, room: str, row: str) -> None:
        """What should stand in a room or a row."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The list of what should stand there")
        name = " ".join(part for part in ("Standing", room, row) if part)
        name = "".join("-" if sign in _NOT_IN_NAMES else sign for sign in name)
        self._print(name, words, lambda view: standing_paper(view, room, row, now_ms, operator))

    def print_recall(self, case: str, *, letters: bool) -> None:
        """The report of a recall as it is now, or the letters to all who have some of it."""
        now_ms = self._desk.house.clock()
        words = QCoreApplication.translate("sheets", "The report")
        name = f"Recall {case}"
        if letters:
            words = QCoreApplication.translate("sheets", "The letters")
            name = f"Recall {case} letters"
        self._print(
            name, words, lambda view: RecallPaper(recall_case(view, now_ms, case), letters)
        )

    def print_pack(self, code: str) -> None:
        """All that an inspector asks about one jar or lot, without customers."""
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        words = QCoreApplication.translate("sheets", "The pack")
        self._print(f"Pack {code}", words, lambda view: inspection(view, now_ms, code, operator))

    def print_kind(self, kind: str, about: str = "") -> None:
        """A paper of a kind as it is now; once it is written, that it was printed is recorded.

        While nothing was recorded since, the one that was printed is opened: it is no reprint.
        """
        now_ms, operator = self._desk.house.clock(), self._desk.operator
        kinds = importlib.import_module(_KINDS)
        title: str = kinds.KINDS[kind].title
        name = "".join("-" if one in _NOT_IN_NAMES else one for one in f"{title} {about}".strip())
        if self._printed == name:
            self.open_printed()
            return

        def ask(view: View) -> Report:
            report: Report = kinds.paper_of(view, now_ms, kind, about, operator)
            return report

        def written(report: Sheet) -> None:
            if isinstance(report, Report) and not self._desk.is_visit:
                facts = kinds.put_on_record(kind, about, report)
                self._desk.record([facts], self._desk.said_now(), lambda _done: None, self)

        self._print(name, in_words(title), ask, written)

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

    def _print(
        self,
        name: str,
        words: str,
        ask: Callable[[View], Sheet],
        then: Callable[[Sheet], None] = lambda _what: None,
    ) -> None:
        desk = self._desk

        def asked(outcome: Outcome[Sheet]) -> None:
            what = outcome.value
            if what is None:
                self._written(name, words, Outcome(error=outcome.error))
                return

            def written(done: Outcome[Paper]) -> None:
                self._written(name, words, done)
                # Told twice where a printer was asked for: the paper is there since the first.
                if done.value is not None and not recorded:
                    recorded.append(what)
                    then(what)

            recorded: list[Sheet] = []
            desk.jobs.work(lambda _report: _write(desk, name, what), asking_printer(desk, written))

        desk.jobs.read(lambda: desk.house.ask(ask), asked)

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


def _write(desk: Desk, name: str, what: Sheet) -> Paper:
    draw: Callable[..., bytes] = importlib.import_module(_DRAWING).sheet_pdf
    return sheet_into(desk, name, lambda: draw(what, desk.assets, desk.unit))
