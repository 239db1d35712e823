"""A label on the screen: the marks of its print, in scale, black on white."""

from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot

from honeyledger.desktop.inks import BoxInk, LineInk, SeenLabel, ShapeInk, TextInk
from honeyledger.desktop.widgets.label_look import LabelLook

LABEL = SeenLabel(
    "J26-0001-00001-X",
    70,
    37,
    (
        BoxInk(35, 10, 20, 20),
        BoxInk(40, 15, 5, 5, white=True),
        ShapeInk(((5.0, 25.0), (15.0, 25.0), (15.0, 35.0), (5.0, 35.0))),
        LineInk(0, 5, 70, 5, 1),
        BoxInk(1, 1, 68, 35, 0.5),
        TextInk(20, 30, "Honey", "HoneyledgerSans-Bold", 12, 12),
    ),
)


def _look(qtbot: QtBot, width: int = 500, height: int = 300) -> LabelLook:
    look = LabelLook()
    qtbot.addWidget(look)
    look.resize(width, height)
    look.show_label(LABEL)
    look.show()
    return look


def _at(look: LabelLook, x_mm: float, y_mm: float) -> QColor:
    paper = look.paper()
    scale = paper.width() / LABEL.width_mm
    image = look.grab().toImage()
    return image.pixelColor(int(paper.left() + x_mm * scale), int(paper.top() + y_mm * scale))


def test_the_paper_is_as_large_as_there_is_room_in_its_own_shape(qtbot: QtBot) -> None:
    paper = _look(qtbot).paper()
    assert abs(paper.width() / paper.height() - 70 / 37) < 0.01
    assert paper.width() > 400


def test_its_marks_stand_where_they_print(qtbot: QtBot) -> None:
    look = _look(qtbot)
    assert _at(look, 50, 25).lightness() < 40, "a black module"
    assert _at(look, 42, 17).lightness() > 215, "a white one in it"
    assert _at(look, 10, 30).lightness() < 40
    assert _at(look, 30, 5).lightness() < 60
    assert _at(look, 30, 12).lightness() > 215, "bare paper"


def test_it_says_whose_it_is_and_how_large_on_paper(qtbot: QtBot) -> None:
    look = _look(qtbot)
    assert look.accessibleName() == "J26-0001-00001-X as it will print, 70 × 37 mm"
    look.show_label(None)
    assert look.isHidden()
    assert look.accessibleName() == ""
    assert look.paper().isEmpty()


def test_in_a_low_window_nothing_is_drawn_that_cannot_be_made_out(qtbot: QtBot) -> None:
    low = _look(qtbot, height=60)
    image = low.grab().toImage()
    assert image.pixelColor(250, 40) == image.pixelColor(5, 5)
