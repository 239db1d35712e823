"""Papers that Qt paints, as they were last looked at: `python -m tests.desktop.golden_painted`.

A trace with its river, a season's chart, a list: their words and places. Their bytes are Qt's, who
writes the time into them.
"""

import os
import sys
from collections.abc import Iterator

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from dataclasses import replace

import pypdfium2
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import style, tokens
from honeyledger.desktop.widgets.paper import pdf_of_all
from tests.desktop.widgets.test_paper import _charted, _paper
from tests.support import golden

_GAP, _OVER = 8.0, 2.0  # points between the letters of one line, and over one another
KINDS = ("painted/trace-river", "painted/season-charts", "painted/who-has-it")
RENEW = "look at it, then renew with: python -m tests.desktop.golden_painted"


def painted() -> Iterator[tuple[str, bytes]]:
    """Each kind of painted paper, by its name."""
    papers = _paper(3), _charted(6), replace(_paper(8), river=None)
    for kind, paper in zip(KINDS, papers, strict=True):
        yield kind, pdf_of_all([paper], lambda _done, _of: None)


def lines(pdf: bytes) -> Iterator[str]:
    """What stands where, as `golden.seen` tells it: Qt sets letters one by one, lines are kept."""
    with pypdfium2.PdfDocument(pdf) as document:
        for number, page in enumerate(document, 1):
            yield golden.page_line(number, page)
            text, high = page.get_textpage(), page.get_size()[1]
            line: list[float] = []
            for left, bottom, right, top in (
                text.get_rect(at) for at in range(text.count_rects())
            ):
                goes_on = (
                    line and -_OVER < left - line[2] < _GAP and bottom < line[3] and top > line[1]
                )
                if line and not goes_on:
                    yield golden.placed_line(line, high, text.get_text_bounded(*line))
                    line = []
                line = line or [left, bottom, right, top]
                line = [line[0], min(line[1], bottom), right, max(line[3], top)]
            yield golden.placed_line(line, high, text.get_text_bounded(*line))


def main() -> None:
    """Keep them and all other papers as they are now, and say which changed."""
    golden.main()
    app = QApplication(sys.argv)
    style.install(app)
    style.wear(app, tokens.LIGHT, moving=False)
    for kind, pdf in painted():
        now, file = list(lines(pdf)), golden.file_of(kind)
        if golden.first_difference(kind, golden.kept(kind), now):
            sys.stdout.write(f"{kind} is another\n")
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text("\n".join(now) + "\n", "utf-8")


if __name__ == "__main__":
    main()
