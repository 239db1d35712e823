"""Labels before they are printed: the sheet, the copies, the label itself, with real keys."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import LabelsAsked, LabelsWanted, Seen
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.tokens import TARGET_LEAST
from honeyledger.desktop.widgets.labels_ask import LabelsAsk
from honeyledger.documents.raster import Box
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.printing import COPIES_OFF
from tests.support import printing
from tests.support.reading import READ

NO_SUCH = "poster"

Heard = list[LabelsWanted | None]
BOXES = tuple(Box(70 * (n % 3), 37 * (n // 3), 70, 37) for n in range(24))
ROLL = printing.stocks().named("roll-100x150")
SHEET = LabelsAsked(printing.stocks().named("a4-24-70x37"), 6, 4)


@pytest.fixture
def heard() -> Heard:
    return []


@pytest.fixture
def dialog(qtbot: QtBot, heard: Heard) -> Iterator[LabelsAsk]:
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    made = LabelsAsk(SHEET, heard.append, parent)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.open()
    yield made
    parent.close()


def test_enter_prints_from_the_label_that_is_marked(dialog: LabelsAsk, heard: Heard) -> None:
    assert dialog.height() <= 400
    assert dialog.look.first == 4
    QTest.keyClick(dialog.look, Qt.Key.Key_Down)
    QTest.keyClick(dialog.look, Qt.Key.Key_Return)
    assert heard == [LabelsWanted(7)]
    assert dialog.result() == QDialog.DialogCode.Accepted.value


@pytest.mark.parametrize("name", ["a4-24-70x37", "letter-10-101.6x50.8"])
def test_a_label_is_a_target_for_a_glove_and_the_one_in_hand_is_in_view(
    qtbot: QtBot, heard: Heard, name: str
) -> None:
    sheet = LabelsAsked(printing.stocks().named(name), 1, 1)
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    dialog = LabelsAsk(sheet, heard.append, parent)
    dialog.open()
    for _ in range(sheet.stock.cells - 1):
        QTest.keyClick(dialog.look, Qt.Key.Key_Right)
    cell = dialog.look.cell(sheet.stock.cells)
    assert dialog.look.first == sheet.stock.cells
    assert min(cell.width(), cell.height()) >= TARGET_LEAST
    seen = dialog.look.visibleRegion().boundingRect()
    assert seen.contains(cell.toRect())
    dialog.reject()


def test_escape_prints_nothing(dialog: LabelsAsk, heard: Heard) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Escape)
    assert heard == [None]


def test_the_buttons_are_reached_by_tab(dialog: LabelsAsk, heard: Heard) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Tab)
    assert dialog.focusWidget() is dialog.print
    QTest.keyClick(dialog.print, Qt.Key.Key_Tab)
    QTest.keyClick(dialog.leave, Qt.Key.Key_Space)
    assert heard == [None]


def _asked(stock: str, **more: Any) -> LabelsAsked:
    return LabelsAsked(printing.stocks().named(stock), 2, **more)


@pytest.fixture
def of_drum(qtbot: QtBot, heard: Heard) -> Iterator[LabelsAsk]:
    """A drum's label on a roll, which may be its sticker on a sheet instead."""
    pdf = READ["drum label"][0](
        [printing.drum_label()], ROLL, plain_printer(ROLL), printing.typefaces()
    )
    paper = SeenPaper(printing.drum_label().code, pdf, 1, (100, 150))

    def other(form: str, tell: Callable[[LabelsAsked | Refusal], None]) -> None:
        if form == NO_SUCH:
            tell(Refusal(COPIES_OFF, copies=0, most=999))
            return
        tell(replace(sticker if form else whole, form=form))

    whole = _asked(
        "roll-100x150",
        see=lambda _wanted, tell, _progress: tell(paper),
        forms=(("", "whole label"), ("drum sticker", "sticker"), (NO_SUCH, "poster")),
        notes=lambda copies: (phrase("{n} times", n=copies),) if copies > 1 else (),
        other=other,
        goes_to="Tag printer 2",
    )
    sticker = replace(whole, stock=printing.stocks().named("a4-24-70x37"), first=3)
    parent = QWidget()
    parent.resize(1280, 800)
    qtbot.addWidget(parent)
    made = LabelsAsk(whole, heard.append, parent)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.open()
    yield made
    parent.close()


def test_a_label_on_a_roll_is_seen_and_copies_are_typed(of_drum: LabelsAsk, heard: Heard) -> None:
    assert of_drum.label.isVisibleTo(of_drum)
    assert not of_drum.look.isVisibleTo(of_drum)
    assert of_drum.slot.sentence() == ("Enter prints, Esc does not. It goes to Tag printer 2.")
    assert of_drum.focusWidget() is of_drum.copies.editor
    QTest.keyClick(of_drum.copies.editor, Qt.Key.Key_Up)
    assert of_drum.slot.sentence() == "2 times"
    QTest.keyClick(of_drum.copies.editor, Qt.Key.Key_Return)
    assert heard == [LabelsWanted(1, 2)]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0", "0 copies cannot be right: say a number from 1 to 999."),
        ("1000", "1000 copies cannot be right: say a number from 1 to 999."),
        ("", "Nothing is typed here: type a number of copies, such as 24."),
    ],
)
def test_copies_that_nobody_prints_are_refused_and_stand(
    of_drum: LabelsAsk, heard: Heard, typed: str, said: str
) -> None:
    of_drum.copies.set_text(typed)
    QTest.keyClick(of_drum.copies.editor, Qt.Key.Key_Return)
    assert said in of_drum.slot.sentence()
    assert (heard, of_drum.isVisible()) == ([], True)
    of_drum.reject()
    assert heard == [None]


def test_another_label_of_the_same_is_chosen_by_keys(of_drum: LabelsAsk, heard: Heard) -> None:
    QTest.keyClick(of_drum.copies.editor, Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    QTest.keyClick(of_drum.focusWidget(), Qt.Key.Key_Right)
    assert of_drum.forms.key() == "drum sticker"
    assert of_drum.panel.heading.text() == "a4-24-70x37"
    assert (of_drum.look.isVisibleTo(of_drum), of_drum.look.first) == (True, 3)
    QTest.keyClick(of_drum.focusWidget(), Qt.Key.Key_Down)
    assert of_drum.forms.key() == "drum sticker", "what there is not stays away"
    assert of_drum.slot.sentence().startswith("Not printed. ")
    of_drum.print.click()
    assert heard == [LabelsWanted(3, 1)]


def test_in_a_narrow_window_the_label_stands_above(qtbot: QtBot, heard: Heard) -> None:
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    seen = SeenPaper("X", b"", 1, (70, 37))
    asked = _asked("roll-70x40", see=lambda _wanted, tell, _progress: tell(seen))
    dialog = LabelsAsk(asked, heard.append, parent)
    dialog.open()
    QApplication.processEvents()
    assert dialog.label.mapTo(dialog, QPoint()).y() < dialog.copies.mapTo(dialog, QPoint()).y()
    assert dialog.label.height() >= 200
    dialog.reject()


def test_labels_are_drawn_anew_as_they_are_wanted_and_turned_by_keys(
    qtbot: QtBot, heard: Heard
) -> None:
    drawn: list[LabelsWanted] = []

    def see(
        wanted: LabelsWanted, tell: Callable[[Seen], None], progress: Callable[[int, int], None]
    ) -> None:
        drawn.append(wanted)
        progress(0, 6)
        tell(SeenPaper("J26-0001-00001-X", b"", 6 * wanted.copies, (70, 37), BOXES, wanted.first))

    dialog = LabelsAsk(replace(SHEET, see=see), heard.append, None)
    qtbot.addWidget(dialog)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    dialog.open()
    assert dialog.label.words().endswith("70 × 37 mm, label 1 of 6")
    QTest.keyClick(dialog.label.on, Qt.Key.Key_Return)
    assert dialog.label.words().endswith("label 2 of 6")
    QTest.keyClick(dialog.look, Qt.Key.Key_Right)
    dialog.copies.set_text("2")
    dialog.copies.edited.emit("2")
    qtbot.waitUntil(lambda: len(drawn) == 2)
    assert drawn == [LabelsWanted(4, 1), LabelsWanted(5, 2)]
    assert dialog.label.words().endswith("label 2 of 12")
    dialog.reject()
