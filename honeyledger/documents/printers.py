"""What one station's printers take and how they print: which paper goes to which, as measured.

Kept in a file beside this computer's settings, never in the house's ledger: another station has
other printers. A paper that goes to no printer is written as a PDF only.
"""

import json
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field, fields, replace
from pathlib import Path

from honeyledger.documents.stock import Printer, Stock, Stocks, plain_printer
from honeyledger.domain.refusals import Refusal, Sentence

ASK_EACH_TIME = "?"
"""Instead of a printer's name: the system's own dialog asks."""
TAGS, LABELS, BADGES, SHEETS = "tags", "labels", "badges", "sheets"
SORTS = (TAGS, LABELS, BADGES, SHEETS)
SORT_OF = {
    "pallet tag": TAGS,
    "drum label": TAGS,
    "yard sheet code": TAGS,
    "case or pallet label": TAGS,
    "vessel label": BADGES,
    "equipment tag": BADGES,
    "sample pot label": BADGES,
    "drum sticker": BADGES,
    "jar front": LABELS,
    "jar back": LABELS,
    "lid seal": LABELS,
    "jar label": LABELS,
    "retail code": LABELS,
    "badge": BADGES,
}
"""Which labels are kept together: what is as large goes to the same printer."""
_OWN_STOCK = ("jar label", "badge")  # what a sort of stock is chosen for; others may not fit it

UNREADABLE = Sentence(
    "printers-unreadable",
    "What is kept of this station's printers cannot be read in {file} ({why}): mend it, or delete "
    "it and set the printers again.",
)
UNWRITABLE = Sentence(
    "printers-unwritable",
    "What this station's printers do cannot be kept in {file} ({why}): make room or allow writing "
    "there, then keep it again.",
)


@dataclass(frozen=True, slots=True)
class Way:
    """Where one sort of label goes.

    Args:
        printer: the system's name of the printer, or `ASK_EACH_TIME`; "" for a PDF only.
        stock: the label stock in it; "" for the one usual for the label.
    """

    printer: str = ""
    stock: str = ""


@dataclass(frozen=True, slots=True)
class StationPapers:
    """One station's printers as measured, by name, and where each sort of label goes."""

    printers: Mapping[str, Printer] = field(default_factory=dict)
    ways: Mapping[str, Way] = field(default_factory=dict)

    def way_of(self, kind: str) -> Way:
        """Where a kind of label, such as "jar label", goes."""
        return self.ways.get(SORT_OF.get(kind, ""), Way())

    def stock_for(self, kind: str, stocks: Stocks) -> Stock:
        """The stock a kind of label is printed on here.

        Raises:
            Refusal: the stock that was chosen is no more, or does not carry this kind.
        """
        chosen = self.way_of(kind).stock
        if chosen and kind not in stocks.named(chosen).kinds and kind not in _OWN_STOCK:
            chosen = ""  # a tag's stock may be too small for one of the sorts that go with it
        return stocks.chosen(kind, chosen)

    def printer_for(self, kind: str, stock: Stock) -> Printer:
        """The printer a kind of label goes to, as measured; a plain one where nobody did."""
        return self.printers.get(self.way_of(kind).printer) or plain_printer(stock)

    def sheets_go_to(self) -> str:
        """The printer that notes and lists go to, or `ASK_EACH_TIME`; "" for a PDF only."""
        return self.ways.get(SHEETS, Way()).printer

    def with_printer(self, printer: Printer) -> "StationPapers":
        """The same with a printer as it was measured."""
        return replace(self, printers={**self.printers, printer.name: printer})

    def with_ways(self, ways: Mapping[str, Way]) -> "StationPapers":
        """The same with other ways."""
        return replace(self, ways=dict(ways))


def read_printers(file: Path) -> StationPapers:
    """What a station's file keeps; nothing where there is none.

    Raises:
        Refusal: it is no TOML, or says what no printer does.
    """
    try:
        written = tomllib.loads(file.read_text(encoding="utf-8-sig"))
        printers = {
            name: Printer(name=name, **table)
            for name, table in dict(written.get("printers", {})).items()
        }
        ways = {
            sort: Way(**table)
            for sort, table in dict(written.get("papers", {})).items()
            if sort in SORTS
        }
    except FileNotFoundError:
        return StationPapers()
    except (OSError, ValueError, TypeError, AttributeError) as trouble:
        why = trouble.strerror if isinstance(trouble, OSError) else str(trouble)
        raise Refusal(UNREADABLE, file=file, why=why) from trouble
    return StationPapers(printers, ways)


def write_printers(papers: StationPapers, file: Path) -> None:
    """Keep it, whole or not at all.

    Raises:
        Refusal: the disk or the folder does not allow it; what stood there before still does.
    """
    lines: list[str] = []
    for name, printer in papers.printers.items():
        lines += _table(("printers", name), printer, skip="name")
    for sort, way in papers.ways.items():
        lines += _table(("papers", sort), way)
    part = file.with_name(f".{file.name}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.write_text("\n".join(lines), encoding="utf-8", newline="\n")
        part.replace(file)
    except OSError as trouble:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        why = trouble.strerror or type(trouble).__name__
        raise Refusal(UNWRITABLE, file=file, why=why) from trouble


def _table(heads: tuple[str, str], row: Printer | Way, skip: str = "") -> list[str]:
    """One table of TOML; a text is written as in JSON, whose escapes TOML reads."""
    lines = [f"[{heads[0]}.{json.dumps(heads[1])}]"]
    for one in fields(row):
        if one.name != skip:
            lines.append(f"{one.name} = {json.dumps(getattr(row, one.name))}")
    return [*lines, ""]
