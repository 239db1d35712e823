"""Painted papers are as they were last looked at, and every line of them stands out."""

import pypdfium2
import pytest
from PySide6.QtWidgets import QApplication

from tests.desktop.golden_painted import KINDS, RENEW, lines, painted
from tests.support import golden

# WCAG 2 for text, from memory; captions are grey there, and white stands on marks.
DOTS, LEAST_RATIO = 300, 4.5


@pytest.fixture
def papers(dressed: QApplication) -> dict[str, bytes]:
    return dict(painted())


def test_words_and_places_are_as_they_were(papers: dict[str, bytes]) -> None:
    assert tuple(papers) == KINDS
    for kind, pdf in papers.items():
        now = list(lines(pdf))
        assert golden.first_difference(kind, golden.kept(kind), now, RENEW) == ""


def test_every_letter_stands_out_from_what_is_behind_it(papers: dict[str, bytes]) -> None:
    seen = 0
    for kind, pdf in papers.items():
        with pypdfium2.PdfDocument(pdf) as document:
            for page in document:
                high, dots = page.get_size()[1], DOTS / 72
                picture = page.render(scale=dots).to_numpy()[..., ::-1]
                text = page.get_textpage()
                for at in range(text.count_rects()):
                    left, bottom, right, top = text.get_rect(at)
                    rows = slice(int((high - top) * dots) - 1, int((high - bottom) * dots) + 2)
                    area = picture[rows, int(left * dots) - 1 : int(right * dots) + 2]
                    tones = golden.luminance(area)
                    ratio = (tones.max() + 0.05) / (tones.min() + 0.05)
                    words = text.get_text_bounded(left, bottom, right, top)
                    assert ratio >= LEAST_RATIO, (kind, words, ratio)
                    seen += 1
    assert seen > 100
