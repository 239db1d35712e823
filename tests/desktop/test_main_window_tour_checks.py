"""Every fault the tour looks for is found where it is, and not where it is not."""

import re

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QFocusFrame,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QWidget,
)
from pytestqt.qtbot import QtBot

from honeyledger.desktop import lettering
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.rows import Column, ColumnKind, RowsModel
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.fields import TextField
from honeyledger.desktop.widgets.sheet_look import SheetLook
from honeyledger.desktop.widgets.table_view import RowsView
from honeyledger.desktop.widgets.text import Text
from tests.desktop.tour_checks import faults_of
from tests.support import printing


class Painting(QWidget):
    """Words at places, painted by the widget itself."""

    def __init__(self, parent: QWidget, *places: tuple[str, QRectF]) -> None:
        super().__init__(parent)
        self._places = places
        self.resize(200, 60)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        painter = QPainter(self)
        for words, rect in self._places:
            lettering.draw(painter, rect, [Hand().run(words)])


@pytest.fixture
def page(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(400, 300)
    return made


def _faults(page: QWidget) -> list[str]:
    page.show()
    return faults_of(page)


def test_a_page_that_is_well_has_none(page: QWidget) -> None:
    Button("Load pallet", parent=page).setGeometry(0, 0, 200, 56)
    Text("Scan the tag.", parent=page).setGeometry(0, 60, 200, 24)
    Painting(page, ("In", QRectF(0, 0, 90, 24)), ("Out", QRectF(100, 0, 90, 24))).move(0, 100)
    field = TextField("Moisture")
    field.setParent(page)
    field.setGeometry(0, 180, 200, 84)
    assert _faults(page) == []


def test_a_target_below_forty(page: QWidget) -> None:
    QPushButton("ok", page).setGeometry(0, 0, 100, 39)
    QLineEdit(page).setGeometry(0, 50, 39, 44)
    page.resize(39, 300)
    page.setMinimumSize(0, 0)
    found = _faults(page)
    assert any("a target of 100 by 39" in one for one in found)
    assert any("a field of 39" in one for one in found)


def test_a_page_that_would_have_to_scroll_sideways(page: QWidget) -> None:
    area, content = QScrollArea(page), QWidget()
    area.setGeometry(0, 0, 300, 200)
    content.setFixedSize(340, 100)
    area.setWidget(content)
    assert _faults(page) == []
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    (found,) = _faults(page)
    assert re.search(r"\d+ px of its width are not seen$", found)


def test_a_label_of_a_sheet_that_is_to_be_taken(page: QWidget) -> None:
    sheet = SheetLook(asks=True)
    sheet.show_stock(printing.stocks().named("a4-24-70x37"))
    sheet.setParent(page)
    sheet.setGeometry(0, 0, 400, 200)
    page.setMinimumSize(400, 300)
    (found,) = _faults(page)
    assert re.search(r"a label of \d+ by \d+$", found)


def test_words_that_are_cut_need_a_tip(page: QWidget) -> None:
    words = "Scan the tag of the first pallet"
    painted = Painting(page, (words, QRectF(0, 0, 90, 24)))
    (found,) = _faults(page)
    assert f"“{words}” is cut and no tip says the whole" in found
    painted.setToolTip(f"{words}.")
    assert _faults(page) == []


def test_words_past_the_edge(page: QWidget) -> None:
    Painting(page, ("below", QRectF(0, 50, 190, 24)))
    (found,) = _faults(page)
    assert found.endswith("“below” goes over its edge")


def test_words_over_words(page: QWidget) -> None:
    Painting(page, ("Quillery", QRectF(0, 0, 190, 24)), ("504", QRectF(20, 4, 190, 24)))
    (found,) = _faults(page)
    assert "“Quillery” and “504” overlap" in found


def test_a_label_of_qt_itself(page: QWidget) -> None:
    QLabel("Scan the tag of the first pallet", page).setGeometry(0, 0, 60, 24)
    (found,) = _faults(page)
    assert found.endswith("the text is cut")


def test_siblings_that_overlap_but_not_what_only_paints_beside(page: QWidget) -> None:
    Button("One", parent=page).setGeometry(0, 0, 120, 56)
    other = Button("Two", parent=page)
    other.setGeometry(100, 10, 120, 56)
    (found,) = _faults(page)
    assert "overlap by 20 by 46" in found
    other.hide()
    painted = Painting(page, ("In", QRectF(0, 0, 40, 24)))
    painted.move(100, 0)
    painted.show()
    assert any("overlap by 20" in one for one in _faults(page))
    painted.move(60, 0)
    painted._places = (("In", QRectF(100, 0, 40, 24)),)
    assert _faults(page) == []


def test_what_its_parent_cuts_off(page: QWidget) -> None:
    Button("Receive and print tag", parent=page).setGeometry(300, 0, 220, 56)
    (found,) = _faults(page)
    assert found.endswith("120 px of it are cut off by what it stands in")


def test_a_field_that_shows_the_end_of_its_text(page: QWidget) -> None:
    field = QLineEdit("J26-0003-H Field blend 250 g", page)
    field.setGeometry(0, 0, 90, 44)
    field.setToolTip(field.text())
    field.setCursorPosition(len(field.text()))
    (found,) = _faults(page)
    assert found.endswith("does not show how it begins")
    field.setToolTip("")
    field.setCursorPosition(0)
    (found,) = _faults(page)
    assert found.endswith("is cut and no tip says the whole")


def test_the_keyboard_is_somewhere_and_nothing_shows_it(page: QWidget) -> None:
    button = Button("One", parent=page)
    button.setGeometry(40, 40, 120, 56)
    page.show()
    page.activateWindow()
    button.setFocus()
    QApplication.processEvents()
    assert QApplication.focusWidget() is button
    assert faults_of(page) == []
    (ring,) = [one for one in QApplication.allWidgets() if isinstance(one, QFocusFrame)]
    ring.hide()
    (found,) = faults_of(page)
    assert found.endswith("it has the keyboard, and no ring stands round it")


def test_a_code_in_a_table_is_never_cut_and_a_row_under_the_head_neither(page: QWidget) -> None:
    columns: tuple[Column[str], ...] = (
        Column("code", "Drum", lambda row: row, ColumnKind.CODE),
        Column("name", "Where", lambda _row: "the far end of the store", ColumnKind.NAME),
    )
    view = RowsView(RowsModel(columns, lambda row: row), Density.FLOOR)
    view.delegate.right_pads = view.head.right_pads = [12, 12]
    view.setParent(page)
    view.setGeometry(0, 0, 400, 200)
    view.rows.show([f"D26-{number:04}-Y" for number in range(9)])
    view.setColumnWidth(0, 150)
    assert _faults(page) == []
    view.setColumnWidth(0, 80)
    assert any("the cell “D26-0001-Y” is cut" in one for one in _faults(page))
    view.setColumnWidth(0, 150)
    view.verticalScrollBar().setValue(20)
    (found,) = _faults(page)
    assert found.endswith("the head cuts row 0")
