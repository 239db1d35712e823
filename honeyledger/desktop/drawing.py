"""What a code's paper says, and how it is drawn: each kind on the stock or paper usual for it.

Only the lanes come here, by name: what draws a paper takes a while to load.
"""

from collections.abc import Iterator, Sequence
from pathlib import Path

from honeyledger.desktop.inks import SeenLabel
from honeyledger.desktop.jobs import Report
from honeyledger.desktop.seen_page import SeenPage
from honeyledger.documents import labels
from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.floor_pad import floor_pad
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.jar_label import JarLabels
from honeyledger.documents.parts import Job
from honeyledger.documents.stock import Stocks, plain_printer
from honeyledger.domain.units import MassUnit
from honeyledger.services.dispatch_paper import DispatchNote, note_paper
from honeyledger.services.labelling import PaperRow, label_rows
from honeyledger.services.papers import DrumLabel, JarLabel, PalletTag, Serials, YardSheetTag
from honeyledger.services.store import View

_TOLD_EACH = 25


def _tell_nobody(_done: int, _of: int) -> None:
    """Nobody waits for it."""


def paper_rows(
    view: View, code: str, serials: Serials, *, is_note: bool
) -> list[PaperRow | DispatchNote]:
    """What the paper of a code says.

    Args:
        serials: of a jar lot, which jars.
        is_note: whether it is a dispatch note's code.

    Raises:
        Refusal: there is nothing to print.
    """
    return [note_paper(view, code)] if is_note else [*label_rows(view, code, serials)]


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


def seen_label(rows: Sequence[PaperRow | DispatchNote], assets: Path) -> SeenLabel | None:
    """The first jar's label as it will print; None where it is no jar's.

    Raises:
        Refusal: something in it cannot be printed.
    """
    jar = next((row for row in rows if isinstance(row, JarLabel)), None)
    if jar is None:
        return None
    stock = Stocks.load(assets / "labels" / "stocks.toml").chosen(labels.JAR_LABEL)
    size = stock.width_mm, stock.height_mm
    page = SeenPage(size, Typefaces(assets / "fonts"))
    JarLabels(Job(page, stock, plain_printer(stock), "kg")).draw(jar)
    return SeenLabel(jar.code, *size, tuple(page.inks))


def pad_pdf(house: str, assets: Path, unit: MassUnit) -> bytes:
    """The paper pad, a sheet of each kind, on the paper usual in the house's office.

    Raises:
        Refusal: a sign in the house's name cannot be printed.
    """
    return floor_pad(house, Typefaces(assets / "fonts"), paper=usual_paper(unit), unit=unit)


def _told(jars: Sequence[JarLabel], report: Report) -> Iterator[JarLabel]:
    """The rows one by one, telling now and then how far they are."""
    for done, row in enumerate(jars):
        if done % _TOLD_EACH == 0:
            report(done, len(jars))
        yield row
