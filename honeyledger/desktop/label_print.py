"""Labels from a code to the paper: asked in the read lane, seen first where that is wanted, drawn
in the work lane, and put on record once they are written.

A sheet may be used in part, so it is asked for; what goes to a printer of the station by itself is
not, unless the person wants to see it first.
"""

import importlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import PRINTED, Desk, LabelsAsked, LabelsWanted, Seen
from honeyledger.desktop.jobs import NotWantedAnyMore, Outcome, Report
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import (
    CANNOT_WRITE,
    Paper,
    and_sent,
    into_file,
    paper_message,
    paper_of,
)
from honeyledger.desktop.seen import SeenPaper
from honeyledger.documents.printers import ASK_EACH_TIME
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.label_forms import DRUM_STICKER, JAR_BACK, JAR_FRONT, LID_SEAL
from honeyledger.services.papers import ALL_JARS, Serials
from honeyledger.services.retail_codes import RetailCode
from honeyledger.services.store import View

NOT_PRINTED = Sentence(
    "not-printed", "Nothing was printed. Print again when the sheet is in the printer."
)
_DRAWING = "honeyledger.desktop.drawing"
_SENDING = "honeyledger.desktop.sending"


@dataclass(frozen=True, slots=True)
class _Ready:
    """Labels that can be printed: their rows, how, what is worth knowing, whether it is asked."""

    rows: Sequence[Any]
    plan: Any
    notes: tuple[Phrase, ...]
    asks: bool


@dataclass(frozen=True, slots=True)
class _Drawn:
    """The PDF of labels as they were wanted: what was looked at is what is written."""

    ready: _Ready
    wanted: LabelsWanted
    pdf: bytes


def print_label(
    desk: Desk,
    code: str,
    then: Callable[[Outcome[Paper]], None],
    *,
    serials: Serials = ALL_JARS,
    progress: Report | None = None,
    looks: bool = False,
) -> None:
    """Write the label of a code among the person's papers, and say where.

    Args:
        serials: of a jar lot, which jars; their file is named after them.
        progress: told how many are drawn, once it takes a while.
        looks: whether it is seen first, whatever it goes to.
    """
    _LabelPrint(desk, (code,), serials, then, progress, looks=looks).begin()


def print_labels(
    desk: Desk,
    codes: Sequence[str],
    then: Callable[[Outcome[Paper]], None],
    form: str = "",
) -> None:
    """Write the labels of codes of one kind into one file, named after the first.

    Args:
        form: as which label of theirs, such as "drum sticker"; "" for the whole one.
    """
    _LabelPrint(desk, codes, Serials(form=form), then).begin()


class _LabelPrint:
    """One print, from the codes to the paper."""

    def __init__(
        self,
        desk: Desk,
        codes: Sequence[str],
        serials: Serials,
        then: Callable[[Outcome[Paper]], None],
        progress: Report | None = None,
        *,
        looks: bool = False,
    ) -> None:
        self._desk, self._codes, self._serials = desk, codes, serials
        self._then, self._progress = then, progress
        self._looks = looks or desk.looks_first
        self._drawn: _Drawn | None = None
        self._in_sight = LabelsWanted()
        self._is_answered = False

    def begin(self) -> None:
        """Ask what is to be printed, and go on with it."""
        self._read(self._serials, self._asked)

    def _read(self, serials: Serials, then: Callable[[Outcome[_Ready]], None]) -> None:
        desk, looks = self._desk, self._looks

        def task(view: View) -> _Ready:
            drawing = importlib.import_module(_DRAWING)
            rows = [row for code in self._codes for row in drawing.paper_rows(view, code, serials)]
            own, papers = drawing.own_stocks(view), desk.station_papers()
            plan = drawing.plan_of(rows, desk.assets, own, papers)
            notes = drawing.worth_knowing(view, rows, plan, desk.assets)
            return _Ready(rows, plan, notes, looks or plan.stock.cells > 1)

        desk.jobs.read(lambda: desk.house.ask(task), then)

    def _asked(self, outcome: Outcome[_Ready]) -> None:
        ready = outcome.value
        if ready is None:
            self._then(Outcome(error=outcome.error))
        elif not ready.asks:
            self._draw(ready, LabelsWanted())
        else:
            self._ready = ready
            self._desk.ask_labels(self._question(ready), self._answered)

    def _question(self, ready: _Ready) -> LabelsAsked:
        stock = ready.plan.stock
        return LabelsAsked(
            stock,
            len(ready.rows),
            min(self._desk.free_labels.get(stock.name, 1), stock.cells),
            partial(self._see, ready),
            self._desk.jobs,
            _forms(self._desk, self._codes[0]),
            self._serials.form,
            lambda copies: importlib.import_module(_DRAWING).with_copies(
                ready.notes, ready.rows, copies
            ),
            self._other,
            "" if ready.plan.goes_to == ASK_EACH_TIME else ready.plan.goes_to,
        )

    def _see(
        self, ready: _Ready, wanted: LabelsWanted, tell: Callable[[Seen], None], progress: Report
    ) -> None:
        """Draw them as they are wanted, to be looked at; what is drawn for that is printed."""
        desk, drawing = self._desk, importlib.import_module(_DRAWING)
        self._in_sight = wanted

        def task(report: Report) -> SeenPaper:
            def go_on(done: int, of: int) -> None:
                if self._is_answered or self._in_sight is not wanted or desk.jobs.is_closing:
                    raise NotWantedAnyMore
                report(done, of)

            rows, plan = _as_wanted(ready, wanted)
            pdf = drawing.label_pdf(rows, desk.assets, desk.unit, go_on, plan)
            seen: SeenPaper = drawing.seen_labels(rows, plan, pdf)
            return seen

        def drawn(outcome: Outcome[SeenPaper]) -> None:
            if outcome.value is not None:
                self._drawn = _Drawn(ready, wanted, outcome.value.pdf)
                tell(outcome.value)
            elif outcome.refusal is not None:
                tell(outcome.refusal)

        desk.jobs.work(task, drawn, progress=progress)

    def _other(self, form: str, tell: Callable[[LabelsAsked | Refusal], None]) -> None:
        """The same as another label of theirs."""
        serials = replace(self._serials, form=form)

        def read(outcome: Outcome[_Ready]) -> None:
            if outcome.value is not None:
                self._ready, self._serials = outcome.value, serials
                tell(self._question(outcome.value))
            elif outcome.refusal is not None:
                tell(outcome.refusal)

        self._read(serials, read)

    def _answered(self, wanted: LabelsWanted | None) -> None:
        self._is_answered = True
        if wanted is None:
            self._then(Outcome(error=Refusal(NOT_PRINTED)))
            return
        stock, many = self._ready.plan.stock, len(self._ready.rows) * wanted.copies
        self._desk.free_labels[stock.name] = (wanted.first - 1 + many) % stock.cells + 1
        self._draw(self._ready, wanted)

    def _draw(self, ready: _Ready, wanted: LabelsWanted) -> None:
        desk, name, seen = self._desk, self._name(), self._drawn
        is_drawn = seen is not None and seen.ready is ready and seen.wanted == wanted
        pdf = seen.pdf if seen is not None and is_drawn else b""
        then = partial(self._written, ready, wanted.copies)
        keep = partial(self._keep, ready, wanted.copies)
        desk.jobs.work(
            lambda report: _write(desk, name, *_as_wanted(ready, wanted), pdf, report),
            and_sent(desk, then, keep, self._progress),
            progress=self._progress,
        )

    def _written(self, ready: _Ready, copies: int, outcome: Outcome[Paper]) -> None:
        """Told twice where it goes to a printer: once it is written, and once it is sent."""
        if outcome.value is None:
            self._then(outcome)
            return
        notes = importlib.import_module(_DRAWING).with_copies(ready.notes, ready.rows, copies)
        self._then(Outcome(replace(outcome.value, notes=notes)))

    def _keep(self, ready: _Ready, copies: int, go_on: Callable[[], None]) -> None:
        """On record before it is sent: what a printer has is on paper, whatever comes after."""
        if self._desk.is_visit:
            go_on()
            return
        facts = importlib.import_module(_DRAWING).put_on_record(ready.rows, copies)
        said = self._desk.said_now()
        self._desk.record(facts, said, lambda _done: go_on(), changes=PRINTED)

    def _name(self) -> str:
        """What the file is called: after the first code, and what of it is printed."""
        serials, first = self._serials, self._codes[0].strip().upper()
        if len(self._codes) > 1:
            words = QCoreApplication.translate("printing", "{code} and {n} more")
            first = words.format(code=first, n=len(self._codes) - 1)
        if serials.last:
            first = f"{first} {serials.first} to {serials.last}"
        return f"{first} {serials.form}".strip()


def _forms(desk: Desk, code: str) -> tuple[tuple[str, str], ...]:
    """Which labels there are of a code, each with its word; none where there is but one."""
    words = {
        "": QCoreApplication.translate("labels_ask", "whole label"),
        DRUM_STICKER: QCoreApplication.translate("labels_ask", "sticker"),
        JAR_FRONT: QCoreApplication.translate("labels_ask", "front"),
        JAR_BACK: QCoreApplication.translate("labels_ask", "back"),
        LID_SEAL: QCoreApplication.translate("labels_ask", "lid seal"),
        RetailCode.label: QCoreApplication.translate("facts", "retail code"),
    }
    letter = desk.letter_of(code)
    drum = ("", DRUM_STICKER) if letter in ("D", "P") else ()
    jar = ("", JAR_FRONT, JAR_BACK, LID_SEAL, RetailCode.label)
    forms = jar if letter == "J" else drum
    return tuple((form, words[form]) for form in forms)


def see_label(
    desk: Desk, code: str, serials: Serials, then: Callable[[Outcome[SeenPaper]], None]
) -> None:
    """How the first of a jar lot's labels will print, with what is worth knowing of it."""

    first = replace(serials, last=serials.first)

    def task() -> SeenPaper:
        drawing = importlib.import_module(_DRAWING)
        rows, own, notes = desk.house.ask(lambda view: drawing.seen_rows(view, code, first))
        papers = desk.station_papers()
        seen: SeenPaper = drawing.first_label(rows, desk.assets, own, papers, desk.unit, notes)
        return seen

    desk.jobs.read(task, then, about="label as it prints")


@dataclass(frozen=True, slots=True)
class LabelWords:
    """What a station says of its labels: `lead` has {code}, `many` {n}."""

    choose: str
    lead: str
    many: str
    failed: str


class ChosenLabel:
    """Prints the labels of the codes chosen on a page, says where they are, opens them again.

    Args:
        form: as which label of theirs, such as "drum sticker"; "" for the whole one.
    """

    def __init__(
        self, desk: Desk, tell: Callable[[Message], None], words: LabelWords, form: str = ""
    ) -> None:
        self._desk, self._form = desk, form
        self._say = tell
        self._words = words
        self._printed: tuple[str, ...] = ()
        self._file = Path()

    def write(self, codes: Sequence[str]) -> None:
        """Print them into one file; with none chosen, ask for one."""
        chosen = tuple(codes)
        if chosen:
            then = partial(self._written, chosen)
            print_labels(self._desk, chosen, then, self._form)
        else:
            self._say(Message(Mark.NOTE, self._words.choose))

    def open(self, codes: Sequence[str]) -> None:
        """Open what was printed last, if it is of these or none is chosen, else print them."""
        is_there = self._printed and tuple(codes) in ((), self._printed)
        if is_there and not self._desk.looks_first:
            self._desk.open_paper(self._file)
        else:
            self.write(codes or self._printed)

    def _written(self, codes: tuple[str, ...], outcome: Outcome[Paper]) -> None:
        what, words = paper_of(outcome), self._words
        if isinstance(what, Paper):
            self._printed, self._file = codes, what.file
        if what is None:
            return
        if len(codes) > 1:
            where = QCoreApplication.translate("printing", "are in {file}; Ctrl+P opens them.")
            lead = words.many.format(n=len(codes))
            self._say(paper_message(what, lead, words.failed, where))
        else:
            self._say(paper_message(what, words.lead, words.failed))


def _as_wanted(ready: _Ready, wanted: LabelsWanted) -> tuple[list[Any], Any]:
    """The rows, each as often as it is wanted, and from which label of a sheet on."""
    rows = [row for row in ready.rows for _ in range(wanted.copies)]
    return rows, replace(ready.plan, first_cell=wanted.first)


def _write(
    desk: Desk, name: str, rows: Sequence[Any], plan: Any, pdf: bytes, report: Report
) -> Paper:
    """The PDF, which is kept in any case; it waits for a printer that was chosen for it.

    Args:
        pdf: as it was looked at; b"" where it was not.
    """
    drawing = importlib.import_module(_DRAWING)
    data = pdf or drawing.label_pdf(rows, desk.assets, desk.unit, report, plan)
    file = into_file(desk.papers / f"{name}.pdf", data, CANNOT_WRITE)
    if not plan.goes_to:
        return Paper(file)
    dots, stock = plan.printer.dots_per_inch, plan.stock
    sheets = importlib.import_module(_SENDING).Sheets
    pages = sheets(name, stock.name, stock.page_mm, dots, data, goes_to=plan.goes_to)
    return Paper(file, to_ask=pages)
