"""Words on a page: cut only with a tip, read out whole, as high as their lines."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.text import Text, body, caption, title

LONG = "Emptied and washed between runs, the line would have kept these drums apart."


def test_a_line_that_is_cut_says_the_whole_in_its_tip(qtbot: QtBot) -> None:
    text = body(LONG)
    qtbot.addWidget(text)
    text.resize(120, 24)
    text.grab()
    assert text.is_cut()
    assert text.toolTip() == LONG
    assert text.accessibleName() == LONG
    text.resize(2000, 24)
    text.grab()
    assert not text.is_cut()
    assert text.toolTip() == ""


def test_a_wrapped_sentence_asks_for_the_height_of_its_lines(qtbot: QtBot) -> None:
    text = body(LONG, wrap=True)
    qtbot.addWidget(text)
    narrow, wide = text.heightForWidth(200), text.heightForWidth(2000)
    assert wide == 24
    assert narrow > 3 * 24
    text.resize(200, narrow)
    assert not text.is_cut()
    text.resize(200, 24)
    assert text.is_cut()
    text.grab()


def test_each_size_is_as_high_as_its_line(qtbot: QtBot) -> None:
    made = [caption("Gross"), body("Ready", Density.DESK), title("Receive supers"), Text("x")]
    for text in made:
        qtbot.addWidget(text)
    assert [text.sizeHint().height() for text in made] == [20, 22, 28, 24]
