"""Labels and papers as they were last looked at: `python -m tests.support.golden` renews them.

Text, its place and that of every symbol hold everywhere; the bytes hold where the same versions of
what writes them are at work. Look at what changed before renewing.
"""

import hashlib
import json
import sys
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdfium2
import reportlab

from honeyledger.documents.labels import alignment_page, jar_fronts
from honeyledger.documents.list_paper import list_pdf
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.stock import plain_printer
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import Treat
from honeyledger.services.label_forms import JAR_FRONT, in_form
from honeyledger.services.paper_kinds import paper_of
from honeyledger.services.report_tables import Report
from tests.documents.test_list_paper import _paper
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.reading import READ

FILE = Path(__file__).resolve().parents[1] / "data" / "golden_papers.json"
MM = 25.4 / 72


def platform() -> str:
    """What decides the bytes of a PDF besides this program."""
    version = ".".join(str(part) for part in sys.version_info[:2])
    return f"{sys.platform}, Python {version}, reportlab {reportlab.__version__}, zlib " + (
        zlib.ZLIB_RUNTIME_VERSION
    )


def drawn() -> Iterator[tuple[str, bytes]]:
    """Each paper by its name: a label of every kind on its first stock, and more."""
    for kind, (draw, row) in READ.items():
        stock = printing.stocks().fitting(kind)[0]
        yield kind, draw([row], stock, plain_printer(stock), printing.typefaces())
    stock = printing.stocks().named("a4-24-70x37")
    yield "alignment page", alignment_page(stock, plain_printer(stock), printing.typefaces())
    yield "list", list_pdf(_paper(40), printing.typefaces())
    report = replace(
        _paper(3),
        printed="Printed 24 Jul 2026 08:40 by Ann Reed",
        again=1,
        anchors=True,
        bands=(("Long Field", 0.7), ("Creek", 0.3)),
    )
    yield "reprint with a river and the head", list_pdf(report, printing.typefaces())
    yield "pull sheet", report_pdf(_pull_sheet(), printing.typefaces())
    front = in_form([printing.jar_label()], JAR_FRONT)
    stock = printing.stocks().fitting(JAR_FRONT)[0]
    yield JAR_FRONT, jar_fronts(front, stock, plain_printer(stock), printing.typefaces())


def _pull_sheet() -> Report:
    """Of a yard treated not long ago; the head is another in every ledger."""
    house = BuiltHouse()
    house.do(Register("yard", {"name": "Creek", "colonies": 30, "place": "NE 4"}))
    house.do(Treat("Creek", "Strips", "", "2026-07-01", "2026-07-10", "2026-07-31"))
    sheet = house.house.ask(lambda view: paper_of(view, house.now_ms, "pull-sheet", "Creek"))
    return replace(sheet, head="1317 84EDABD03458")


def seen(pdf: bytes) -> list[list[Any]]:
    """What stands where: each line of text and each symbol, in hundredths of a millimetre."""
    rows: list[list[Any]] = []
    with pypdfium2.PdfDocument(pdf) as document:
        for number, page in enumerate(document, 1):
            text = page.get_textpage()
            for at in range(text.count_rects()):
                box = text.get_rect(at)
                rows.append([number, text.get_text_bounded(*box), *_rounded(*box)])
    for one in printing.placed_symbols(pdf):
        side = one.side * one.module
        rows.append(
            [0, f"symbol of {one.side}", *_rounded(one.x, one.y, one.x + side, one.y + side)]
        )
    rows += [[0, "bars", *_rounded(*box)] for box in printing.placed_bars(pdf)]
    return rows


def _rounded(*points: float) -> list[float]:
    return [round(point * MM, 2) for point in points]


def kept() -> Mapping[str, Any]:
    """What was kept when papers were last looked at."""
    found: Mapping[str, Any] = json.loads(FILE.read_text("utf-8"))
    return found


def main() -> None:
    """Keep all papers as they are now."""
    papers = {
        name: {"bytes": hashlib.sha256(pdf).hexdigest(), "seen": seen(pdf)}
        for name, pdf in drawn()
    }
    lines = [
        f'{json.dumps(name)}: {{\n  "bytes": {json.dumps(paper["bytes"])},\n  "seen": [\n'
        + ",\n".join(f"    {json.dumps(row, ensure_ascii=False)}" for row in paper["seen"])
        + "\n  ]\n}"
        for name, paper in papers.items()
    ]
    head = f'{{\n"platform": {json.dumps(platform())},\n'
    FILE.write_text(head + ",\n".join(lines) + "\n}\n", "utf-8")


if __name__ == "__main__":
    main()
