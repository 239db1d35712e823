"""A sheet drawn to scale: where its labels lie, and how the first free one is taken."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.sheet_look import SheetLook
from honeyledger.documents.stock import stock_of
from tests.support import printing

SHEET = printing.stocks().named("a4-24-70x37")


def _shown(qtbot: QtBot, name: str = "a4-24-70x37", *, asks: bool = False) -> SheetLook:
    look = SheetLook(asks=asks)
    qtbot.addWidget(look)
    look.resize(400, 500)
    look.show_stock(printing.stocks().named(name), 5, 4)
    look.show()
    return look


def test_labels_are_drawn_in_the_proportion_they_lie_on_paper(qtbot: QtBot) -> None:
    look = _shown(qtbot)
    sheet, last = look.sheet(), look.cell(24)
    assert sheet.width() / sheet.height() == pytest.approx(210 / 297)
    scale = sheet.width() / 210
    assert (last.left() - sheet.left()) / scale == pytest.approx(140)
    assert (last.top() - sheet.top()) / scale == pytest.approx(0.5 + 7 * 37)
    assert last.width() / scale == pytest.approx(70)


def test_it_says_in_words_what_it_shows(qtbot: QtBot) -> None:
    look = _shown(qtbot)
    assert look.accessibleName() == "24 labels of 70 × 37 mm on A4"
    look.show_stock(printing.stocks().named("roll-70x40"))
    assert look.words() == "A roll, each label 70 × 40 mm"
    look.show_stock(printing.stocks().named("letter-10-101.6x50.8"))
    assert look.words() == "10 labels of 101.6 × 50.8 mm on Letter"
    own = {"paper": "sheet", "sheet_width_um": 200_000, "sheet_height_um": 290_000}
    look.show_stock(stock_of("Own", {**own, "width_um": 90_000, "height_um": 40_000}))
    assert look.words() == "One label of 90 × 40 mm on 200 × 290 mm"
    look.show_stock(None)
    assert look.words() == ""
    assert look.sheet().isEmpty()


def test_arrows_walk_over_the_labels_and_stay_on_the_sheet(qtbot: QtBot) -> None:
    look = _shown(qtbot, asks=True)
    taken: list[int] = []
    look.taken.connect(taken.append)
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Down, Qt.Key.Key_Left, Qt.Key.Key_Up):
        QTest.keyClick(look, key)
    assert taken == [6, 9, 8, 5]
    look.show_stock(SHEET, 1)
    QTest.keyClick(look, Qt.Key.Key_Up)
    QTest.keyClick(look, Qt.Key.Key_Left)
    assert look.first == 1
    assert look.accessibleName() == "First label: 1 of 24"


def test_a_click_takes_the_label_under_it(qtbot: QtBot) -> None:
    look = _shown(qtbot, asks=True)
    at = look.cell(17).center()
    QTest.mouseClick(look, Qt.MouseButton.LeftButton, pos=QPoint(int(at.x()), int(at.y())))
    assert look.first == 17


def test_used_printed_and_free_labels_are_told_apart(qtbot: QtBot) -> None:
    image = _shown(qtbot, asks=True).grab().toImage()
    look = _shown(qtbot, asks=True)
    colours = []
    for number in (1, 5, 8, 9):
        cell = look.cell(number)
        at = cell.topLeft()
        colours.append(image.pixelColor(int(at.x() + cell.width() * 0.8), int(at.y() + 4)).name())
    used, first, last, free = colours
    assert first == last
    assert len({used, first, free}) == 3


def test_where_nothing_is_asked_keys_change_nothing(qtbot: QtBot) -> None:
    look = _shown(qtbot)
    QTest.keyClick(look, Qt.Key.Key_Right)
    assert look.first == 5
