"""Papers into files, and to a printer where one was chosen; what is said of them.

A file takes its name only when it is whole. What draws is loaded when the first paper is printed:
the window does not wait for it.
"""

import importlib
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import PRINTED, Desk
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.documents.printers import ASK_EACH_TIME
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.holding import name_in
from honeyledger.services.printed import FLOOR_PAD

CANNOT_WRITE = Sentence(
    "cannot-write-label",
    "The label cannot be written to {file} ({why}). Make room or allow writing there, then print "
    "again.",
)

NOT_WRITTEN = Sentence(
    "cannot-write-paper",
    "{file} cannot be written ({why}). Make room or allow writing there, then print again.",
)


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper that was written.

    Args:
        file: its PDF.
        printer: the printer that took it, too; "" for none.
        to_ask: its pages, while they wait for a printer, or for the dialog that asks for one.
        notes: what is worth knowing of it, such as that its bars are low.
    """

    file: Path
    printer: str = ""
    to_ask: Any = None
    notes: tuple[Phrase, ...] = ()


_DRAWING = "honeyledger.desktop.drawing"
_SENDING = "honeyledger.desktop.sending"


def and_sent(
    desk: Desk,
    then: Callable[[Outcome[Paper]], None],
    keep: Callable[[Callable[[], None]], None] | None = None,
    progress: Report | None = None,
) -> Callable[[Outcome[Paper]], None]:
    """Say what was written, put it on record, then send it where it goes, and say it again.

    Args:
        keep: puts it on record, and goes on once it is.
        progress: told which page of how many is sent, once it takes a while.
    """

    def told(outcome: Outcome[Paper]) -> None:
        then(outcome)
        paper = outcome.value
        if paper is None:
            return
        go_on = partial(_send, desk, paper, then, progress)
        if keep is None:
            go_on()
        else:
            keep(go_on)

    return told


def _send(
    desk: Desk, paper: Paper, then: Callable[[Outcome[Paper]], None], progress: Report | None
) -> None:
    """The pages of a paper that wait, in a lane; the PDF is written whatever becomes of them."""
    if paper.to_ask is None:
        return

    def sent(outcome: Outcome[str]) -> None:
        named = outcome.value
        then(
            Outcome(Paper(paper.file, named))
            if named is not None
            else Outcome(None, outcome.error)
        )

    def print_it(task: Callable[[Report], str]) -> None:
        desk.jobs.work(task, sent, progress=progress)

    if paper.to_ask.goes_to == ASK_EACH_TIME:
        desk.ask_printer(paper.to_ask, print_it)
    else:
        print_it(lambda report: str(importlib.import_module(_SENDING).send(paper.to_ask, report)))


def print_pad(desk: Desk, then: Callable[[Outcome[Paper]], None]) -> None:
    """Write the paper pad among the person's papers, put it on record, and say where.

    A blank sheet is made to be copied: it says of no print which one it is.
    """

    def keep(go_on: Callable[[], None]) -> None:
        if desk.is_visit:
            go_on()
            return
        facts = [Printed(FLOOR_PAD)]
        desk.record(facts, desk.said_now(), lambda _done: go_on(), changes=PRINTED)

    def named(outcome: Outcome[str]) -> None:
        house = outcome.value
        if house is None:
            then(Outcome(error=outcome.error))
            return
        desk.jobs.work(lambda _report: _write_pad(desk, house), and_sent(desk, then, keep))

    desk.jobs.read(lambda: desk.house.ask(lambda view: name_in(view, "house")), named)


def _write_pad(desk: Desk, house: str) -> Paper:
    pdf: Callable[..., bytes] = importlib.import_module(_DRAWING).pad_pdf
    return sheet_into(desk, "Paper pad", lambda: pdf(house, desk.assets, desk.unit))


def sheet_into(
    desk: Desk, name: str, draw: Callable[[], bytes], refused: Sentence | None = None
) -> Paper:
    """Write a note or a list among the person's papers; it waits for a printer chosen for such.

    Raises:
        Refusal: nothing can be written there.
    """
    data = draw()
    file = into_file(desk.papers / f"{name}.pdf", data, refused or NOT_WRITTEN)
    papers = desk.station_papers()
    goes_to = papers.sheets_go_to()
    if not goes_to:
        return Paper(file)
    drawing, sending = (importlib.import_module(one) for one in (_DRAWING, _SENDING))
    sheets = drawing.sheets_of(name, data, desk.unit, papers.printers.get(goes_to))
    return Paper(file, to_ask=sending.Sheets(*sheets, goes_to))


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
    for note in paper.notes:
        text = f"{text} {say(note)}"
    mark = Mark.WARNING if paper.notes else Mark.READY
    return Message(mark, lead.format(code=paper.file.stem), text)


def shown_path(file: Path) -> str:
    """A file as it is told to a person: from the home folder on, where it is in there."""
    home = Path.home()
    return f"~/{file.relative_to(home).as_posix()}" if file.is_relative_to(home) else str(file)


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
