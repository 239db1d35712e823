"""Labels onto paper: from codes to a PDF."""

from collections.abc import Callable, Sequence
from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.commandline.report import parse_copies
from honeyledger.documents.code_size import size_notes
from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.labels import labels_of
from honeyledger.documents.printers import read_printers
from honeyledger.documents.stock import Printer, Stocks, plain_printer
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.ledger.notes import is_note
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.dispatch_paper import DispatchNote, note_paper
from honeyledger.services.label_forms import in_form
from honeyledger.services.label_log import (
    marked,
    put_on_record,
    told_before,
    told_of_code,
    told_of_copies,
)
from honeyledger.services.labelling import PaperRow, house_stocks, label_rows
from honeyledger.services.papers import Serials
from honeyledger.services.printed import DISPATCH_NOTE, as_printed
from honeyledger.services.store import View
from honeyledger.settings import printers_file

ONE_KIND = Sentence(
    "one-kind-of-label",
    "One file holds one kind of label: print the {kinds} apart, each into its own file.",
)
CANNOT_WRITE = Sentence(
    "cannot-write", "Nothing can be written to {file} ({why}). Choose another file or folder."
)
NOT_A_PDF = Sentence(
    "not-a-pdf",
    "{file} is there already and is no PDF, so it is not written over. Choose another name.",
)
IS_THERE = Sentence(
    "is-there", "{file} is there already, and is not written over. Choose another name."
)
NOT_MEASURED = Sentence(
    "printer-not-measured",
    "{name} was not measured on this computer (there are: {known}). Measure it in Setup, under "
    "Printers, or leave --printer out.",
)
PDF_BEGINS = b"%PDF"
NOTE = "dispatch note"


@click.command(cls=Recording)
@click.argument("codes", nargs=-1, required=True, metavar="CODE...")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE.pdf", help="The PDF to write."
)
@click.option("--from", "first", default="1", metavar="SERIAL", help="Of jars: the first serial.")
@click.option("--to", "last", metavar="SERIAL", help="Of jars: the last serial; else all.")
@click.option("--stock", "stock_name", default="", metavar="NAME", help="The label stock.")
@click.option("--paper", default="", help="a4, letter or roll, where no stock is named.")
@click.option("--dpi", default="0", metavar="DOTS", help="Dots an inch of the printer.")
@click.option("--printer", "measured", default="", metavar="NAME", help="As measured in Setup.")
@click.option("--first-cell", default="1", metavar="N", help="First free label of a sheet begun.")
@click.option("--as", "form", default="", metavar="KIND", help="drum sticker, jar front ...")
@click.option("--copies", default="1", metavar="COUNT", help="So many of each.")
@click.pass_obj
def labels(
    desk: Desk,
    codes: Sequence[str],
    file: str,
    first: str,
    last: str | None,
    stock_name: str,
    paper: str,
    dpi: str,
    measured: str,
    first_cell: str,
    form: str,
    copies: str,
) -> None:
    """Print to a PDF: pallet tags, drum, jar, case and yard labels, badges, dispatch notes.

    Codes of vessels, equipment and samples have their labels, too. --as prints another label of
    the same: drum sticker, jar front, jar back, lid seal. One file holds one kind. Of a jar lot,
    all its serials are printed unless --from and --to say which; the code of one jar prints that
    one. What is printed is put on record: a tag printed a second time says "Reprint 1" at its
    foot, a label of a jar never does.

    \b
    Example: honeyledger labels D26-0011-4 D26-0012-2 -o drums.pdf
    Undo: throw the labels away and reverse the entry: no gram moves by it.
    """
    serials = Serials(
        parse_count(first, "a serial", least=1, field="from"),
        parse_count(last, "a serial", least=1, field="to") if last else 0,
    )
    count = parse_copies(copies)
    asked = in_form(desk.ask(lambda view: _rows(view, codes, serials)), form.strip())
    kinds = list(dict.fromkeys(_kind_of(row) for row in asked))
    if len(kinds) > 1:
        raise Refusal(ONE_KIND, field="codes", kinds=" and the ".join(f"{k}s" for k in kinds))
    if notes := [row for row in asked if isinstance(row, DispatchNote)]:
        _print_notes(desk, notes, file, paper, count)
        return
    rows, told = desk.ask(lambda view: _told(view, asked))
    rows = [row for row in rows for _ in range(count)]
    stocks = Stocks.load(resource("labels", "stocks.toml")).with_own(desk.ask(house_stocks))
    stock = stocks.chosen(kinds[0], stock_name, paper)
    begins = parse_count(first_cell, "a label", least=1, field="first_cell")
    dots = parse_count(dpi, "a number of dots an inch", field="dpi")
    printer = measured_printer(measured) if measured else plain_printer(stock, dots)
    faces = Typefaces(resource("fonts"))
    facts = put_on_record(asked, count)
    for one in facts[:1]:
        desk.house.preview(one, desk.said())  # what would be refused is so before it is drawn
    write_pdf(
        Path(file),
        labels_of(kinds[0], rows, stock, printer, faces, unit=desk.unit, first_cell=begins),
    )
    recorded = desk.house.record_all(facts, desk.said())
    value: dict[str, object] = {
        "file": file,
        "kind": kinds[0],
        "labels": len(rows),
        "stock": stock.name,
        "entries": [entry.id for entry in recorded.entries],
    }
    noun = kinds[0] if len(rows) == 1 else f"{kinds[0]}s"
    said = [f"{len(rows)} {noun} on {stock.name}: {file}"]
    small = size_notes(asked, stock, printer, faces)
    if worth := [str(one) for one in (*small, *told, told_of_copies(asked, count)) if one]:
        value["note"] = " ".join(worth)
        said += worth
    desk.answer(value, lambda: output.say("\n".join(said)))


def _told(
    view: View, asked: Sequence[PaperRow | DispatchNote]
) -> tuple[list[PaperRow | DispatchNote], list[Phrase | None]]:
    """The labels, each with which print of it it is, and what is worth knowing of them."""
    rows = marked(view, asked)
    return rows, [told_before(view, rows), told_of_code(view, rows)]


def _kind_of(row: PaperRow | DispatchNote) -> str:
    return NOTE if isinstance(row, DispatchNote) else row.label


def _print_notes(
    desk: Desk, notes: Sequence[DispatchNote], file: str, paper: str, copies: int
) -> None:
    """Dispatch notes go onto whole sheets of the paper in the office."""
    sheet = paper or usual_paper(desk.unit)
    now_ms, by = desk.house.clock(), desk.said().operator
    rows = desk.ask(
        lambda view: [
            as_printed(view, note, DISPATCH_NOTE, note.code, now_ms, by) for note in notes
        ]
    )
    rows = [row for row in rows for _ in range(copies)]
    faces = Typefaces(resource("fonts"))
    entries = write_paper(
        desk,
        Path(file),
        lambda: dispatch_notes(rows, faces, paper=sheet, unit=desk.unit),
        [Printed(DISPATCH_NOTE, code, copies) for code in {note.code: None for note in notes}],
    )
    value = {
        "file": file,
        "kind": NOTE,
        "labels": len(rows),
        "stock": sheet,
        "reprint": max(row.again for row in rows),
        "entries": entries,
    }
    noun = NOTE if len(rows) == 1 else f"{NOTE}s"
    desk.answer(value, lambda: output.say(f"{len(rows)} {noun} on {sheet}: {file}"))


def write_paper(
    desk: Desk, file: Path, draw: Callable[[], bytes], facts: Sequence[Printed]
) -> list[int]:
    """Write a paper, and put on record that it was printed; answers the entries of that.

    Raises:
        Refusal: it cannot be drawn, written or recorded; then nothing was.
    """
    for one in facts[:1]:
        desk.house.preview(one, desk.said())  # what would be refused is so before it is drawn
    write_pdf(file, draw())
    return [entry.id for entry in desk.house.record_all(facts, desk.said()).entries]


def _rows(view: View, codes: Sequence[str], serials: Serials) -> list[PaperRow | DispatchNote]:
    rows: list[PaperRow | DispatchNote] = []
    markets = shipped_markets(resource("labels", "content"))
    for code in codes:
        if is_note(view, code):
            rows.append(note_paper(view, code))
        else:
            rows += label_rows(view, code, serials, markets)
    return rows


def measured_printer(name: str) -> Printer:
    """A printer of this computer with what it needs."""
    printers = read_printers(printers_file()).printers
    if name not in printers:
        known = ", ".join(printers) or "none yet"
        raise Refusal(NOT_MEASURED, field="printer", name=name, known=known)
    return printers[name]


def write_pdf(path: Path, data: bytes) -> None:
    """Write a PDF where there is nothing yet, or over an older one; never over anything else."""
    try:
        if path.is_file() and not _is_pdf(path):
            raise Refusal(NOT_A_PDF, field="output", file=path)
        path.write_bytes(data)
    except OSError as trouble:
        why = trouble.strerror or type(trouble).__name__
        raise Refusal(CANNOT_WRITE, field="output", file=path, why=why) from trouble


def write_table(path: Path, data: bytes) -> None:
    """Write a table where there is nothing yet; never over anything."""
    try:
        with path.open("xb") as file:
            file.write(data)
    except FileExistsError:
        raise Refusal(IS_THERE, field="output", file=path) from None
    except OSError as trouble:
        why = trouble.strerror or type(trouble).__name__
        raise Refusal(CANNOT_WRITE, field="output", file=path, why=why) from trouble


def _is_pdf(path: Path) -> bool:
    """Whether a file begins as a PDF does (ISO 32000-1, 7.5.2)."""
    with path.open("rb") as file:
        return file.read(len(PDF_BEGINS)) == PDF_BEGINS
