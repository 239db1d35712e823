"""Papers into files: a code's label as a PDF, asked in the read lane, drawn in the work lane.

A file takes its name only when it is whole. What draws is loaded when the first paper is printed:
the window does not wait for it.
"""

import importlib
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import Desk, PartUsed
from honeyledger.desktop.inks import SeenLabel
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.documents.printers import ASK_EACH_TIME
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.holding import name_in
from honeyledger.services.papers import ALL_JARS, Serials
from honeyledger.services.store import View

CANNOT_WRITE = Sentence(
    "cannot-write-label",
    "The label cannot be written to {file} ({why}). Make room or allow writing there, then print "
    "again.",
)

NOT_WRITTEN = Sentence(
    "cannot-write-paper",
    "{file} cannot be written ({why}). Make room or allow writing there, then print again.",
)
NOT_PRINTED = Sentence(
    "not-printed", "Nothing was printed. Print again when the sheet is in the printer."
)
NOTE = "N"


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper that was written.

    Args:
        file: its PDF.
        printer: the printer that took it, too; "" for none.
        to_ask: its pages, where the system's own dialog is to ask which printer takes them.
        note: what is worth knowing of it, such as that its bars are low; None for nothing.
    """

    file: Path
    printer: str = ""
    to_ask: Any = None
    note: Phrase | None = None


_DRAWING = "honeyledger.desktop.drawing"
_SENDING = "honeyledger.desktop.sending"


def print_label(
    desk: Desk,
    code: str,
    then: Callable[[Outcome[Paper]], None],
    *,
    serials: Serials = ALL_JARS,
    progress: Report | None = None,
) -> None:
    """Write the label of a code, or a dispatch note, among the person's papers, and say where.

    Args:
        serials: of a jar lot, which jars; their file is named after them.
        progress: told how many are drawn, once it takes a while.
    """
    name = code.strip().upper()
    if serials.last:
        name = f"{name} {serials.first} to {serials.last}"
    if serials.form:
        name = f"{name} {serials.form}"
    _print(desk, (code,), name, then, serials, progress)


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
    words = QCoreApplication.translate("printing", "{code} and {n} more")
    first = codes[0].strip().upper()
    name = words.format(code=first, n=len(codes) - 1) if len(codes) > 1 else first
    name = f"{name} {form}".strip()
    _print(desk, codes, name, then, Serials(form=form))


def _print(
    desk: Desk,
    codes: Sequence[str],
    name: str,
    then: Callable[[Outcome[Paper]], None],
    serials: Serials = ALL_JARS,
    progress: Report | None = None,
) -> None:
    def rows_of(view: View) -> tuple[Sequence[object], object]:
        drawing = importlib.import_module(_DRAWING)
        rows = [
            row
            for code in codes
            for row in drawing.paper_rows(
                view, code, serials, is_note=desk.letter_of(code) == NOTE
            )
        ]
        own = drawing.own_stocks(view)
        return rows, drawing.plan_of(rows, desk.assets, own, desk.station_papers())

    def asked(outcome: Outcome[tuple[Sequence[object], Any]]) -> None:
        if outcome.value is None:
            then(Outcome(error=outcome.error))
            return
        rows, plan = outcome.value
        if plan is None or plan.stock.cells == 1:
            drawn(rows, plan)
            return
        known = min(desk.free_labels.get(plan.stock.name, 1), plan.stock.cells)
        sheet = PartUsed(plan.stock, len(rows), known)
        desk.ask_first(sheet, lambda first: begun(rows, plan, first))

    def begun(rows: Sequence[object], plan: Any, first: int) -> None:
        if not first:
            then(Outcome(error=Refusal(NOT_PRINTED)))
            return
        cells = plan.stock.cells
        desk.free_labels[plan.stock.name] = (first - 1 + len(rows)) % cells + 1
        drawn(rows, replace(plan, first_cell=first))

    def drawn(rows: Sequence[object], plan: Any) -> None:
        desk.jobs.work(
            lambda report: _write(desk, name, rows, plan, report),
            asking_printer(desk, then),
            progress=progress,
        )

    desk.jobs.read(lambda: desk.house.ask(rows_of), asked)


def asking_printer(
    desk: Desk, then: Callable[[Outcome[Paper]], None]
) -> Callable[[Outcome[Paper]], None]:
    """Say what was written; where it is to be asked for, ask the printer, and say it again.

    The PDF is written by then, whatever the system's dialog ends with.
    """

    def told(outcome: Outcome[Paper]) -> None:
        then(outcome)
        paper = outcome.value
        if paper is None or paper.to_ask is None:
            return

        def answered(answer: Refusal | str) -> None:
            if isinstance(answer, Refusal):
                then(Outcome(error=answer))
            else:
                then(Outcome(Paper(paper.file, answer)))

        desk.ask_printer(paper.to_ask, answered)

    return told


def see_label(
    desk: Desk, code: str, serials: Serials, then: Callable[[Outcome[SeenLabel | None]], None]
) -> None:
    """How the first of a jar lot's labels will print."""

    first = replace(serials, last=serials.first)

    def task() -> SeenLabel | None:
        drawing = importlib.import_module(_DRAWING)
        rows, own = desk.house.ask(
            lambda view: (
                drawing.paper_rows(view, code, first, is_note=False),
                drawing.own_stocks(view),
            )
        )
        papers = desk.station_papers()
        seen: SeenLabel | None = drawing.seen_label(rows, desk.assets, own, papers)
        return seen

    desk.jobs.read(task, then, about="label as it prints")


def print_pad(desk: Desk, then: Callable[[Outcome[Paper]], None]) -> None:
    """Write the paper pad among the person's papers, and say where."""

    def named(outcome: Outcome[str]) -> None:
        house = outcome.value
        if house is None:
            then(Outcome(error=outcome.error))
            return
        desk.jobs.work(lambda _report: _write_pad(desk, house), asking_printer(desk, then))

    desk.jobs.read(lambda: desk.house.ask(lambda view: name_in(view, "house")), named)


def _write_pad(desk: Desk, house: str) -> Paper:
    pdf: Callable[..., bytes] = importlib.import_module(_DRAWING).pad_pdf
    return sheet_into(desk, "Paper pad", lambda: pdf(house, desk.assets, desk.unit))


def sheet_into(
    desk: Desk, name: str, draw: Callable[[], bytes], refused: Sentence | None = None
) -> Paper:
    """Write a note or a list among the person's papers; a printer chosen for such gets the same.

    Raises:
        Refusal: nothing can be written there, or the printer does not take it.
    """
    file = into_file(desk.papers / f"{name}.pdf", draw(), refused or NOT_WRITTEN)
    papers = desk.station_papers()
    goes_to = papers.sheets_go_to()
    if not goes_to:
        return Paper(file)
    drawing, sending = (importlib.import_module(one) for one in (_DRAWING, _SENDING))
    drawn = drawing.sheets_of(name, draw, desk.unit, papers.printers.get(goes_to))
    return _sent(file, sending.Sheets(*drawn), goes_to)


def _sent(file: Path, sheets: Any, goes_to: str) -> Paper:
    """The same pages to a printer, or to whoever asks for one."""
    if goes_to == ASK_EACH_TIME:
        return Paper(file, to_ask=sheets)
    send: Callable[..., None] = importlib.import_module(_SENDING).send
    send(sheets, goes_to)
    return Paper(file, goes_to)


@dataclass(frozen=True, slots=True)
class LabelWords:
    """What a station says of its labels: `lead` has {code}, `many` {n}."""

    choose: str
    lead: str
    many: str
    failed: str


def paper_of(outcome: Outcome[Paper]) -> Paper | Refusal | None:
    """What printing ended with: a paper, or why there is none; None where the window closes."""
    return outcome.refusal if outcome.value is None else outcome.value


def paper_message(
    what: Paper | Path | Refusal, lead: str, failed: str, where: str = ""
) -> Message:
    """Say where a paper is that was written and which printer took it, or why there is none.

    Args:
        lead: how it is called; it may have {code}.
        where: said of its {file}, where that is not how most papers are opened.
    """
    if isinstance(what, Refusal):
        return Message(Mark.WARNING, failed, refusal_words(what))
    paper = what if isinstance(what, Paper) else Paper(what)
    words = where or QCoreApplication.translate("printing", "is in {file}; Ctrl+P opens it.")
    text = words.format(file=shown_path(paper.file))
    if paper.printer:
        sent = QCoreApplication.translate("printing", "Sent to {printer}.")
        text = f"{text} {sent.format(printer=paper.printer)}"
    if paper.note is not None:
        text = f"{text} {say(paper.note)}"
    mark = Mark.READY if paper.note is None else Mark.WARNING
    return Message(mark, lead.format(code=paper.file.stem), text)


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
        if self._printed and tuple(codes) in ((), self._printed):
            self._desk.open_paper(self._file)
        else:
            self.write(codes)

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


def shown_path(file: Path) -> str:
    """A file as it is told to a person: from the home folder on, where it is in there."""
    home = Path.home()
    return f"~/{file.relative_to(home).as_posix()}" if file.is_relative_to(home) else str(file)


def _write(desk: Desk, name: str, rows: Sequence[object], plan: Any, report: Report) -> Paper:
    """The PDF, which is kept in any case; a printer that was chosen for it gets the same."""
    drawing = importlib.import_module(_DRAWING)
    if plan is None:
        pdf = drawing.label_pdf
        return sheet_into(desk, name, lambda: pdf(rows, desk.assets, desk.unit), CANNOT_WRITE)
    data = drawing.label_pdf(rows, desk.assets, desk.unit, report, plan)
    file = into_file(desk.papers / f"{name}.pdf", data, CANNOT_WRITE)
    note = drawing.size_note(rows, plan)
    if not plan.goes_to:
        return Paper(file, note=note)
    marks = drawing.label_pages(rows, desk.assets, desk.unit, plan)
    dots, stock = plan.printer.dots_per_inch, plan.stock
    sheets = importlib.import_module(_SENDING).Sheets
    pages = sheets(name, stock.name, stock.page_mm, dots, marks)
    return replace(_sent(file, pages, plan.goes_to), note=note)


def into_file(file: Path, data: bytes, refused: Sentence = NOT_WRITTEN) -> Path:
    """Write a paper, whole or not at all; answers its file.

    Raises:
        Refusal: nothing can be written there.
    """
    part = file.with_name(f".{file.name}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(data)
        part.replace(file)
    except OSError as trouble:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        why = trouble.strerror or type(trouble).__name__
        raise Refusal(refused, file=shown_path(file), why=why) from trouble
    return file
