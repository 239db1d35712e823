"""Every colour on its ground, as pages paint them, can be read: light, dark and high contrast.

WCAG 2.2 asks for 4.5 to 1 of text and 3 to 1 of shapes that say something. The stations as they
usually are have it looked at where the tour comes to them.
"""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import lettering, look, marks, style, tokens
from honeyledger.desktop.colouring import contrast
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import Theme
from tests.desktop import pictures
from tests.desktop.tour import Stop, Tour
from tests.desktop.tour_contrast import LEAST_SHAPE, LEAST_TEXT, THEMES, pairs_of, unreadable

ROLE = QPalette.ColorRole


@pytest.fixture(scope="module")
def led(tmp_path_factory: pytest.TempPathFactory, qapp: QApplication) -> Iterator[Tour]:
    style.install(qapp)
    made = Tour(qapp, tmp_path_factory.mktemp("contrast"))
    yield made
    made.close()


@pytest.mark.full
@pytest.mark.parametrize("page", pictures.PAGES)
def test_all_that_any_state_paints_can_be_read(led: Tour, page: str) -> None:
    with led.at(Stop(page)) as window:
        assert unreadable(led, window) == []


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_what_qt_paints_itself_can_be_read(theme: Theme) -> None:
    look.change(to=theme)
    palette = style.qpalette(theme)
    for one, other in (
        (ROLE.WindowText, ROLE.Window),
        (ROLE.Text, ROLE.Base),
        (ROLE.Text, ROLE.AlternateBase),
        (ROLE.PlaceholderText, ROLE.Base),
        (ROLE.ButtonText, ROLE.Button),
        (ROLE.HighlightedText, ROLE.Highlight),
        (ROLE.Link, ROLE.Base),
        (ROLE.ToolTipText, ROLE.ToolTipBase),
    ):
        found = contrast(palette.color(one).name(), palette.color(other).name())
        assert found >= LEAST_TEXT, f"{one.name} on {other.name} is {found:.1f}"


class Faint(QWidget):
    """Words and a mark on grounds they can, and cannot, be read on."""

    def __init__(self, ground: str, ink: str) -> None:
        super().__init__()
        self._ground, self._ink = ground, ink
        self.resize(200, 60)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour(self._ground))
        hand = Hand(colour=self._ink)
        lettering.draw(painter, QRectF(8, 8, 120, 24), [hand.run("Coulee Bend")])
        marks.draw(painter, Mark.HOLD, 140, 8, 20, self._ink)


def test_a_pair_that_cannot_be_read_is_found(qtbot: QtBot) -> None:
    faint = Faint("alert", "mast")
    qtbot.addWidget(faint)
    words, mark = pairs_of(faint)
    assert (words.seen, words.least) == ("Coulee Bend", LEAST_TEXT)
    assert (mark.seen, mark.least) == ("hold", LEAST_SHAPE)
    assert words.ground == mark.ground == tokens.LIGHT.alert
    assert words.contrast < LEAST_SHAPE
    clear = Faint("sheet", "ink")
    qtbot.addWidget(clear)
    assert min(pair.contrast for pair in pairs_of(clear)) > LEAST_TEXT
