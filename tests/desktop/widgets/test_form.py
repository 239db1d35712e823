"""Enter moves on in the order of the work, and the last Enter records."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import tokens
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import MassField, TextField
from honeyledger.desktop.widgets.form import Form


class Receipt(Form):
    """A short form with every sort of field."""

    def __init__(self) -> None:
        super().__init__()
        self.yard = TextField("Yard")
        self.supers = CountField("Supers")
        self.tare = MassField("Tare")
        self.condition = ChoiceButtons("Condition", [Choice("s", "Sealed"), Choice("g", "Green")])
        self.gross = MassField("Gross")
        self.add_row((self.yard, 1))
        self.add_row((self.supers, 1), (self.tare, 2))
        self.add_row((self.condition, 1))
        self.add_row((self.gross, 1))
        self.tare.set_read_only(True)
        self.receive = Button("Receive", Kind.PRIMARY)
        self.finish_with(self.receive)


@pytest.fixture
def form(qtbot: QtBot) -> Receipt:
    made = Receipt()
    qtbot.addWidget(made)
    qtbot.addWidget(made.receive)
    made.resize(504, 380)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_enter_goes_from_field_to_field_and_the_last_one_records(
    qtbot: QtBot, form: Receipt
) -> None:
    pressed: list[bool] = []
    form.receive.clicked.connect(lambda: pressed.append(True))
    form.begin()
    assert form.yard.editor.hasFocus()
    for field in (form.yard.editor, form.supers.editor):
        qtbot.keyClick(field, Qt.Key.Key_Return)
    assert form.condition.buttons()[0].hasFocus(), "a value that is given is passed over"
    qtbot.keyClick(form.condition.buttons()[0], Qt.Key.Key_Return)
    assert form.gross.editor.hasFocus()
    assert pressed == []
    qtbot.keyClick(form.gross.editor, Qt.Key.Key_Return)
    assert pressed == [True]


def test_fields_of_a_row_share_its_width(form: Receipt) -> None:
    assert form.tare.width() == pytest.approx(2 * form.supers.width(), abs=2)
    assert form.supers.x() == 19
    assert form.tare.x() - form.supers.geometry().right() - 1 == 12
    assert form.supers.y() - form.yard.y() == 92
    assert list(form.fields()) == [
        form.yard,
        form.supers,
        form.tare,
        form.condition,
        form.gross,
    ]


def test_in_a_low_window_the_focused_field_is_kept_in_view(qtbot: QtBot, form: Receipt) -> None:
    form.resize(504, 140)
    QApplication.processEvents()
    form.take_focus(form.gross)
    top = form.gross.mapTo(form, form.gross.rect().topLeft()).y()
    assert top >= 0
    assert top + form.gross.height() <= form.height() + 8
    form.take_focus(form.yard)
    assert form.yard.mapTo(form, form.yard.rect().topLeft()).y() >= 0


def test_enter_may_do_something_of_a_field_s_own_first(qtbot: QtBot, form: Receipt) -> None:
    answers = [True, False]
    form.on_enter(form.yard, lambda: answers.pop(0))
    form.begin()
    qtbot.keyClick(form.yard.editor, Qt.Key.Key_Return)
    assert form.yard.editor.hasFocus(), "it stays where it is"
    qtbot.keyClick(form.yard.editor, Qt.Key.Key_Return)
    assert form.supers.editor.hasFocus()


def test_it_knows_the_room_its_visible_fields_need(form: Receipt) -> None:
    all_of_them = form.room()
    form.gross.hide()
    form.yard.hide()
    low = form.room()
    assert form.supers.sizeHint().height() < low < all_of_them
    form.yard.show()
    form.gross.show()
    assert form.room() == all_of_them


def test_tab_goes_through_other_buttons_of_choice_where_the_old_ones_were(
    qtbot: QtBot,
) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    form = Receipt()
    column = QVBoxLayout(window)
    column.addWidget(form)
    column.addWidget(form.receive)
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    form.condition.set_choices([Choice(key, key) for key in ("wet", "dry", "mixed")])
    form.condition.set_key("dry")
    qtbot.waitUntil(form.condition.buttons()[0].isVisible)
    form.gross.take_focus()
    qtbot.keyClick(form.gross.editor, Qt.Key.Key_Backtab)
    dry = form.condition.buttons()[1]
    assert dry.hasFocus(), "the chosen one, not the nearest"
    qtbot.keyClick(dry, Qt.Key.Key_Tab)
    assert form.gross.editor.hasFocus()


def test_tab_stops_in_the_order_of_the_work(qtbot: QtBot) -> None:
    form, name, unit = Form(), TextField("Name"), ChoiceButtons("Unit", [Choice("kg", "kg")])
    qtbot.addWidget(form)
    form.add_row((name, 1), (unit, 1))
    assert form.stops() == [name.editor, *unit.buttons()]


def test_the_ring_of_the_last_field_has_room_where_the_fields_scroll(qtbot: QtBot) -> None:
    form, fields = Form(), [TextField(f"Field {number}") for number in range(4)]
    for field in fields:
        form.add_row((field, 1))
    qtbot.addWidget(form)
    form.resize(300, form.room())
    with qtbot.waitExposed(form):
        form.show()
    form.activateWindow()
    assert form.verticalScrollBar().maximum() == 0, "they fit to the pixel"
    form.resize(300, 150)
    fields[-1].take_focus()
    qtbot.waitUntil(fields[-1].editor.hasFocus)
    box = fields[-1].box
    qtbot.waitUntil(lambda: form.verticalScrollBar().value() == form.verticalScrollBar().maximum())
    bottom = box.mapTo(form, box.rect().bottomLeft()).y()
    assert bottom + tokens.FOCUS_GAP + tokens.FOCUS_WIDTH < form.viewport().height()


@pytest.mark.parametrize(("height", "labelled"), [(400, False), (700, True)])
def test_what_chooses_a_form_stays_over_fields_that_scroll(
    qtbot: QtBot, height: int, labelled: bool
) -> None:
    """Its label gives way in a low window, the buttons never."""
    window = QWidget()
    column = QVBoxLayout(window)
    form = Form()
    what = ChoiceButtons("What happens", [Choice("a", "Load"), Choice("b", "Drum")])
    form.pin(what)
    fields = [TextField(f"Field {number}") for number in range(12)]
    for field in fields:
        form.add_row((field, 1))
    column.addWidget(form)
    qtbot.addWidget(window)
    window.resize(500, height)
    with qtbot.waitExposed(window):
        window.show()
    before = what.mapTo(window, what.rect().topLeft())
    form.take_focus(fields[-1])
    assert what.mapTo(window, what.rect().topLeft()) == before
    assert what.label.isVisible() is labelled
    assert form.fields()[0] is what
    top = fields[-1].mapTo(window, fields[-1].rect().topLeft()).y()
    assert before.y() + what.height() <= top < window.height() - fields[-1].height()
    room = form.room()
    what.hide()
    QApplication.processEvents()
    assert form.room() < room


def test_many_rows_of_what_chooses_a_form_scroll_with_it_in_a_low_window(qtbot: QtBot) -> None:
    """Three rows pinned would leave no field in view; where there is room they stay."""
    window = QWidget()
    column = QVBoxLayout(window)
    form = Form()
    rows = [ChoiceButtons("What happens", [Choice(key, key)]) for key in ("a", "b", "c")]
    form.pin(*rows)
    fields = [TextField(f"Field {number}") for number in range(12)]
    for field in fields:
        form.add_row((field, 1))
    column.addWidget(form)
    qtbot.addWidget(window)
    window.resize(500, 400)
    with qtbot.waitExposed(window):
        window.show()
    form.take_focus(fields[-1])
    assert rows[0].visibleRegion().isEmpty(), "they scroll away"
    assert list(form.fields()[:3]) == rows
    window.resize(500, 700)
    QApplication.processEvents()
    assert all(not row.visibleRegion().isEmpty() for row in rows), "pinned again"
    top = fields[-1].mapTo(window, fields[-1].rect().topLeft()).y()
    assert rows[-1].mapTo(window, rows[-1].rect().bottomLeft()).y() < top
    window.resize(500, 400)
    QApplication.processEvents()
    form.take_focus(rows[0])
    assert not rows[0].visibleRegion().isEmpty(), "and are come back to"


def test_a_form_that_scrolled_begins_with_a_whole_row(qtbot: QtBot) -> None:
    form = Form()
    fields = [TextField(f"Field {number}") for number in range(12)]
    for field in fields:
        form.add_row((field, 1))
    qtbot.addWidget(form)
    form.resize(400, 300)
    with qtbot.waitExposed(form):
        form.show()
    for field in fields[4:10]:
        form.take_focus(field)
        tops = [one.mapTo(form.viewport(), one.rect().topLeft()).y() for one in fields]
        assert 0 in tops, "no field is cut at the top"
        bottom = field.mapTo(form.viewport(), field.rect().bottomLeft()).y()
        assert bottom + tokens.FOCUS_GAP + tokens.FOCUS_WIDTH < form.viewport().height()
