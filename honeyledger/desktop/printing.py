"""Papers into files: a code's label as a PDF, asked in the read lane, drawn in the work lane.

A file takes its name only when it is whole.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.documents import labels
from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.stock import Stocks, plain_printer
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.services.dispatch_paper import DispatchNote, note_paper
from honeyledger.services.labelling import PaperRow, Serials, label_rows
from honeyledger.services.papers import DrumLabel, JarLabel, PalletTag, YardSheetTag
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
NOTE = "N"
ALL_JARS = Serials()
_TOLD_EACH = 25


def _tell_nobody(_done: int, _of: int) -> None:
    """Nobody waits for it."""


def print_label(
    desk: Desk,
    code: str,
    then: Callable[[Outcome[Path]], None],
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

    def rows_of(view: View) -> list[PaperRow | DispatchNote]:
        if desk.letter_of(code) == NOTE:
            return [note_paper(view, code)]
        return [*label_rows(view, code, serials)]

    def drawn(outcome: Outcome[list[PaperRow | DispatchNote]]) -> None:
        rows = outcome.value
        if rows is None:
            then(Outcome(error=outcome.error))
            return
        desk.jobs.work(lambda report: _write(desk, name, rows, report), then, progress=progress)

    desk.jobs.read(lambda: desk.house.ask(rows_of), drawn)


def shown_path(file: Path) -> str:
    """A file as it is told to a person: from the home folder on, where it is in there."""
    home = Path.home()
    return f"~/{file.relative_to(home).as_posix()}" if file.is_relative_to(home) else str(file)


def _write(desk: Desk, name: str, rows: Sequence[PaperRow | DispatchNote], report: Report) -> Path:
    file = desk.papers / f"{name}.pdf"
    data = label_pdf(rows, desk.assets, desk.unit, report)
    return into_file(file, data, CANNOT_WRITE)


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


def label_pdf(
    rows: Sequence[PaperRow | DispatchNote],
    assets: Path,
    unit: MassUnit,
    report: Report = _tell_nobody,
) -> bytes:
    """Labels of one kind on the stock usual for it; dispatch notes on the paper usual there.

    Raises:
        Refusal: there are none, or a sign in them cannot be printed.
    """
    stocks = Stocks.load(assets / "labels" / "stocks.toml")
    typefaces = Typefaces(assets / "fonts")
    if notes := [row for row in rows if isinstance(row, DispatchNote)]:
        return dispatch_notes(notes, typefaces, paper=usual_paper(unit), unit=unit)
    pallets = [row for row in rows if isinstance(row, PalletTag)]
    drums = [row for row in rows if isinstance(row, DrumLabel)]
    jars = [row for row in rows if isinstance(row, JarLabel)]
    if pallets:
        stock = stocks.chosen(labels.PALLET_TAG)
        printer = plain_printer(stock)
        return labels.pallet_tags(pallets, stock, printer, typefaces, unit=unit)
    if drums:
        stock = stocks.chosen(labels.DRUM_LABEL)
        printer = plain_printer(stock)
        return labels.drum_labels(drums, stock, printer, typefaces, unit=unit)
    if jars:
        stock = stocks.chosen(labels.JAR_LABEL)
        told = _told(jars, report)
        return labels.jar_labels(told, stock, plain_printer(stock), typefaces)
    yards = [row for row in rows if isinstance(row, YardSheetTag)]
    stock = stocks.chosen(labels.YARD_CODE)
    return labels.yard_codes(yards, stock, plain_printer(stock), typefaces)


def _told(jars: Sequence[JarLabel], report: Report) -> Iterator[JarLabel]:
    """The rows one by one, telling now and then how far they are."""
    for done, row in enumerate(jars):
        if done % _TOLD_EACH == 0:
            report(done, len(jars))
        yield row
