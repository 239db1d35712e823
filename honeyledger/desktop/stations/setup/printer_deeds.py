"""This station's printers and where its labels go: what their forms ask, show and say."""

from collections.abc import Mapping, Sequence

from honeyledger.desktop.stations.setup.asks import Ask, Deed, SetupKind, Typing, tr
from honeyledger.documents.printers import (
    ASK_EACH_TIME,
    BADGES,
    LABELS,
    SHEETS,
    TAGS,
    StationPapers,
    Way,
)
from honeyledger.documents.stock import RESOLUTIONS, Printer, Stocks
from honeyledger.domain.label_stock import A4, LETTER, ROLL, SHEET, parse_length, parse_shift
from honeyledger.domain.refusals import Refusal, Sentence

NO_PRINTER_NAMED = Sentence(
    "no-printer-named", "Choose a printer of this computer: what it prints is kept by its name."
)
_KIND_OF = {TAGS: "pallet tag", LABELS: "jar label", BADGES: "badge"}
_PRINTER, _STOCK = "_printer", "_stock"
SHEETS_PRINTER = f"{SHEETS}{_PRINTER}"
_MEASURES = ("shift_x_mm", "shift_y_mm", "measured_x_mm", "measured_y_mm")


def printer_kind() -> SetupKind:
    """One printer as it was measured."""
    mm = tr("mm")
    return SetupKind(
        "printer",
        "",
        tr("Printers"),
        tr("Print the calibration page at 100 %, measure it, and type what it needs."),
        (
            Ask("name", tr("Printer of this computer"), Typing.PRINTER),
            Ask(
                "paper",
                tr("It has"),
                Typing.BUTTONS,
                usual=ROLL,
                buttons=(
                    (ROLL, tr("a roll")),
                    (A4, "A4"),
                    (LETTER, "Letter"),
                    (SHEET, tr("other")),
                ),
            ),
            Ask(
                "dots_per_inch",
                tr("Dots an inch"),
                Typing.BUTTONS,
                usual="203",
                buttons=tuple((str(dots), str(dots)) for dots in RESOLUTIONS),
            ),
            Ask("shift_x_mm", tr("Move all right by"), Typing.MEASURE, unit=mm, usual="0"),
            Ask("shift_y_mm", tr("and down by"), Typing.MEASURE, unit=mm, usual="0", beside=True),
            Ask("measured_x_mm", tr("100 mm across are"), Typing.MEASURE, unit=mm, usual="100"),
            Ask(
                "measured_y_mm",
                tr("100 mm down are"),
                Typing.MEASURE,
                unit=mm,
                usual="100",
                beside=True,
            ),
        ),
        deed=Deed.PRINTER,
        button=tr("Keep this"),
    )


def ways_kind() -> SetupKind:
    """Where each sort of label goes."""
    words = {
        TAGS: (tr("Tags, drum labels go to"), tr("on the stock")),
        LABELS: (tr("Jar labels go to"), tr("on the stock")),
        BADGES: (tr("Badges go to"), tr("on the stock")),
    }
    asks: list[Ask] = []
    for sort, (to, on) in words.items():
        asks.append(Ask(f"{sort}{_PRINTER}", to, Typing.PRINTER))
        asks.append(Ask(f"{sort}{_STOCK}", on, Typing.STOCK, beside=True))
    asks.append(Ask(SHEETS_PRINTER, tr("Notes and lists go to"), Typing.PRINTER))
    return SetupKind(
        "papers",
        "",
        tr("Where papers go"),
        tr("With no printer chosen a paper is a PDF, printed at 100 %."),
        tuple(asks),
        deed=Deed.PAPERS,
        button=tr("Keep this"),
    )


def printer_values(papers: StationPapers, name: str) -> dict[str, str] | None:
    """A printer as its form shows it; None where nobody measured it."""
    printer = papers.printers.get(name.strip())
    if printer is None:
        return None
    measures = {key: f"{getattr(printer, key):g}" for key in _MEASURES}
    about = {"name": printer.name, "paper": printer.paper}
    return {**about, "dots_per_inch": str(printer.dots_per_inch), **measures}


def printer_said(typed: Mapping[str, str]) -> Printer:
    """The printer the form says.

    Raises:
        Refusal: it has no name, or a measure cannot be read or is no fine correction.
    """
    name = typed.get("name", "").strip()
    if not name:
        raise Refusal(NO_PRINTER_NAMED, field="name")
    return Printer(
        name,
        typed.get("paper", "") or ROLL,
        int(typed.get("dots_per_inch", "") or RESOLUTIONS[0]),
        parse_shift(typed.get("shift_x_mm", "") or "0", "shift_x_mm"),
        parse_shift(typed.get("shift_y_mm", "") or "0", "shift_y_mm"),
        parse_length(typed.get("measured_x_mm", "") or "100", "measured_x_mm"),
        parse_length(typed.get("measured_y_mm", "") or "100", "measured_y_mm"),
    )


def ways_values(papers: StationPapers) -> dict[str, str]:
    """Where labels go, as the form shows it."""
    values: dict[str, str] = {}
    for sort in _KIND_OF:
        way = papers.ways.get(sort, Way())
        values[f"{sort}{_PRINTER}"] = _shown_printer(way.printer)
        values[f"{sort}{_STOCK}"] = way.stock
    values[SHEETS_PRINTER] = _shown_printer(papers.sheets_go_to())
    return values


def _shown_printer(name: str) -> str:
    return each_time() if name == ASK_EACH_TIME else name


def _said_printer(typed: str) -> str:
    return ASK_EACH_TIME if typed == each_time() else typed


def each_time() -> str:
    """What is chosen where the system's own dialog is to ask."""
    return tr("ask each time")


def ways_said(
    typed: Mapping[str, str], papers: StationPapers, stocks: Stocks
) -> Mapping[str, Way]:
    """Where labels go by the form.

    Raises:
        Refusal: a stock is not known, does not carry the label, or is not what is in the printer.
    """
    ways: dict[str, Way] = {}
    for sort, kind in _KIND_OF.items():
        printer = typed.get(f"{sort}{_PRINTER}", "").strip()
        stock = typed.get(f"{sort}{_STOCK}", "").strip()
        try:
            chosen = stocks.named(stock) if stock and sort == TAGS else stocks.chosen(kind, stock)
            if printer in papers.printers:
                chosen.places(papers.printers[printer])
        except Refusal as refusal:
            field, offers = f"{sort}{_STOCK}", refusal.offers
            raise Refusal(
                refusal.sentence, field=field, offers=offers, **refusal.facts
            ) from refusal
        ways[sort] = Way(_said_printer(printer), stock)
    ways[SHEETS] = Way(_said_printer(typed.get(SHEETS_PRINTER, "").strip()))
    return ways


def stocks_for(key: str, stocks: Stocks) -> Sequence[str]:
    """The stocks that a sort of label may be printed on, by the key of its question."""
    kind = _KIND_OF[key.removesuffix(_STOCK)]
    kinds = ("pallet tag", "yard sheet code") if kind == "pallet tag" else (kind,)
    return [name for name in stocks.names if set(kinds) & set(stocks.named(name).kinds)]
