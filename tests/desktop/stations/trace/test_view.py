"""The trace page in the window: scanned, chosen, walked, turned, printed."""

from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.view import TraceView
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS


class Traced:
    """The trace page, a drum of two yards on the floor, another sent out."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.tank = rig.told(Register("vessel", {"name": "Tank 1", "sort": "tank"})).given[0]
        self._load("Long Field", 6)
        self.sent = self._drum(90_000)
        self._load("Mill Lane", 20)
        self.drum = self._drum(280_000)
        rig.told(Register("customer", {"name": "Corner Shop"}))
        rig.told(Dispatch("Corner Shop", (DispatchLine(self.sent),)))
        rig.keys("Ctrl+8")

    def _load(self, name: str, supers: int) -> None:
        yard = self.rig.told(Register("yard", {"name": name})).given[0]
        facts = Receive((Line(yard, supers),), gross_g=supers * 21_000, tare_g=0)
        tag = next(code for code in self.rig.told(facts).given if code[0] == "G")
        self.rig.now_ms += MINUTE_MS
        self.rig.told(Load(tag, self.tank))
        self.rig.now_ms += 90 * MINUTE_MS

    def _drum(self, grams: int) -> str:
        done = self.rig.told(Fill(self.tank, Weight(net_g=grams)))
        self.rig.now_ms += 90 * MINUTE_MS
        return next(code for code in done.codes if code[0] == "D")

    @property
    def view(self) -> TraceView:
        found = self.rig.window.stations["trace"]
        assert isinstance(found, TraceView)
        return found

    def press(self, bot: QtBot, key: str) -> None:
        """Press a lot in the river."""
        geometry = self.view.river.canvas.geometry_now()
        assert geometry is not None
        spine = geometry.spine(key)
        assert spine is not None
        at = QPoint(int(spine.left) + 6, int(spine.middle))
        bot.mouseClick(self.view.river.canvas, Qt.MouseButton.LeftButton, pos=at)
        self.rig.settle()


def _pages(paper: Path) -> list[str]:
    """The words of each page."""
    document = pypdfium2.PdfDocument(paper)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


@pytest.fixture
def traced(qtbot: QtBot, tmp_path: Path) -> Iterator[Traced]:
    rig = Rig(qtbot, tmp_path)
    yield Traced(rig)
    rig.close()


def test_with_nothing_traced_it_says_how_to_begin(traced: Traced) -> None:
    view = traced.view
    assert view.answer.accessibleName() == "Trace. Any jar, back to its yards in a moment."
    assert not view.river.isVisible()
    assert not any(b.isVisible() for b in (view.turn, view.print_it, view.open_card))
    assert view.yards.view.hasFocus()


def test_a_scan_traces_and_the_page_reads_as_it_looks(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    view = traced.view
    said = view.answer.accessibleName()
    assert said.startswith(f"Where {traced.drum} comes from: 280.0 kg. 2 yards. ")
    assert said.endswith("Long Field only through a heel.")
    assert view.yards.view.accessibleName() == f"Where {traced.drum} comes from: 280.0 kg"
    assert [row.name for row in view.yards.model.rows()] == ["Mill Lane", "Long Field"]
    described = view.river.canvas.accessibleDescription()
    assert "Yards: Mill Lane" in described
    assert f"Drums: {traced.drum}" in described
    assert view.yards.view.hasFocus()
    assert "lots in reach." in view.slot.sentence()


def test_river_and_table_follow_each_other(qtbot: QtBot, traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    view = traced.view
    canvas = view.river.canvas
    assert canvas.selected_key() == f"from {view.yards.selected_key()}"
    traced.rig.keys("Down")
    other = view.yards.model.key_at(1)
    assert canvas.selected_key() == f"from {other}"
    first = view.yards.model.key_at(0)
    traced.press(qtbot, f"from {first}")
    assert view.yards.selected_key() == first
    traced.press(qtbot, traced.drum)
    assert view.yards.selected_key() == "", "a drum has no row"
    assert canvas.selected_key() == traced.drum, "and stays chosen in the river"


def test_a_press_opens_the_card_and_enter_goes_on(qtbot: QtBot, traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    asked: list[str] = []
    traced.view.asks.card.connect(asked.append)
    traced.press(qtbot, traced.drum)
    assert asked == [traced.drum]
    traced.rig.keys("Esc")
    canvas = traced.view.river.canvas
    canvas.setFocus()
    traced.rig.keys("Left", "Return")
    assert traced.view.presenter.code.startswith("T26-")
    assert not traced.view.presenter.forward
    assert canvas.hasFocus(), "the next Enter goes on from there"


def test_enter_on_a_yard_goes_forward(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    yard = traced.view.yards.model.key_at(0)
    traced.view.river.centred.emit(f"from {yard}")
    traced.rig.settle()
    assert traced.view.presenter.forward
    assert traced.view.answer.page.text() == "Where the honey of Mill Lane went"


def test_customers_come_first_and_a_yard_has_no_way_back(traced: Traced) -> None:
    traced.view.take_code("long field")
    traced.rig.settle()
    view = traced.view
    rows = view.reached.model.rows()
    assert rows[0].where == "Corner Shop"
    assert all(row.where.startswith("here: ") for row in rows[1:])
    assert view.reached.isVisible()
    assert view.reached.view.hasFocus()
    assert not view.turn.isVisible()
    assert view.print_it.isVisible()


def test_a_lot_is_turned_by_a_button(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    traced.view.turn.setFocus()
    traced.rig.keys("Return")
    assert traced.view.turn.text() == "Where does it come from?"
    assert traced.view.reached.isVisible()


def test_a_misread_code_is_offered_and_taken_with_enter(traced: Traced) -> None:
    wrong = traced.drum[:-1] + ("X" if traced.drum[-1] != "X" else "Y")
    traced.rig.scan(wrong)
    view = traced.view
    assert view.offers.isVisible()
    assert view.offers.slot.sentence().startswith("Not traced.")
    assert QApplication.focusWidget() is view.offers.buttons[0]
    assert view.offers.buttons[0].text() == traced.drum
    traced.rig.keys("Return")
    assert view.presenter.code == traced.drum
    assert not view.offers.isVisible()


def test_a_name_that_two_things_have_is_asked_about(traced: Traced) -> None:
    traced.rig.told(Register("supplier", {"name": "Long Field"}))
    traced.rig.keys("F2")
    traced.rig.type("Long Field")
    view = traced.view
    assert "A yard and a supplier are both called Long Field" in view.offers.slot.sentence()
    offered = [one.text() for one in view.offers.buttons if not one.isHidden()]
    assert offered[1] == "long-field"
    assert offered[0].startswith("Y26-")
    traced.rig.keys("Return")
    assert (view.presenter.code, view.presenter.forward) == (offered[0], True)


def test_a_hold_is_said(traced: Traced) -> None:
    traced.rig.told(PutOnHold(traced.drum, "lab result awaited"))
    traced.rig.scan(traced.drum)
    assert "lab result awaited" in traced.view.slot.sentence()


def test_the_river_is_printed_with_its_answer(traced: Traced) -> None:
    traced.rig.keys("Ctrl+P")
    assert traced.view.slot.sentence() == (
        "Trace a code first: its river and its table are what is printed."
    )
    traced.rig.scan(traced.drum)
    traced.rig.keys("Ctrl+P")
    (paper,) = traced.rig.opened
    assert paper.parent == traced.rig.folder / "papers"
    entry, digest = traced.rig.head()
    assert paper.name == f"trace-{traced.drum}-{entry}.pdf"
    (text,) = _pages(paper)
    assert "2 yards." in text
    assert "px = " in text
    assert f"Test House · head {entry} {digest[:12].upper()} · printed" in text
    assert all(row.code in text for row in traced.view.yards.model.rows())
    assert str(paper) in traced.view.slot.sentence()


def test_the_way_forward_is_printed_with_every_lot_a_customer_got(traced: Traced) -> None:
    traced.view.take_code("long field")
    traced.rig.settle()
    traced.rig.keys("Ctrl+P")
    (paper,) = traced.rig.opened
    yard = traced.view.presenter.code
    assert paper.name == f"trace-forward-{yard}-{traced.rig.head()[0]}.pdf"
    text = " ".join(_pages(paper))
    assert "Where the honey of Long Field went" in text
    assert "Corner Shop" in text
    assert traced.sent in text
    assert "px = " in text, "its river is printed, too"


@pytest.mark.parametrize("forward", [False, True])
def test_a_picture_is_saved_by_key(traced: Traced, forward: bool) -> None:
    traced.view.presenter.trace(traced.drum, forward=forward)
    traced.rig.settle()
    traced.rig.keys("Ctrl+Shift+P")
    (paper,) = traced.rig.opened
    assert paper.suffix == ".png"
    assert QImage(str(paper)).width() == 2800


def test_pages_that_take_a_while_are_counted(traced: Traced) -> None:
    traced.view.presenter.printing.emit(2, 9)
    assert traced.view.slot.sentence() == "Printing: page 2 of 9"


def test_the_way_forward_has_a_river_to_where_the_honey_is_now(traced: Traced) -> None:
    traced.view.take_code("long field")
    traced.rig.settle()
    laid = traced.view.river.canvas.laid()
    assert laid is not None
    graph = laid.whole
    assert [column.title for column in graph.columns][-1] == "Now"
    ends = {node.label for node in graph.in_column(len(graph.columns) - 1)}
    assert ends == {"Corner Shop", "still here"}
    traced.press(traced.rig.bot, traced.sent)
    assert traced.rig.window.card.widget.code() == traced.sent
    traced.rig.keys("Esc")
    asked: list[str] = []
    traced.view.asks.card.connect(asked.append)
    traced.press(traced.rig.bot, "to corner-shop")
    assert asked == [], "a customer has no card"
    assert traced.view.bodies.chosen() == "corner-shop"


def test_enter_in_the_river_goes_on_forward(traced: Traced) -> None:
    traced.view.take_code("long field")
    traced.rig.settle()
    canvas = traced.view.river.canvas
    canvas.setFocus()
    assert canvas.current_key() == "to corner-shop", "it begins where the table stands"
    traced.rig.keys("Left", "Return")
    assert traced.view.presenter.forward
    assert traced.view.presenter.code == traced.sent


def test_a_low_window_shows_river_or_table(traced: Traced) -> None:
    view = traced.view
    traced.rig.window.resize(640, 400)
    traced.rig.scan(traced.drum)
    assert view.river.isVisible()
    assert not view.yards.isVisible()
    assert view.river.height() >= 150
    assert view.over.text() == "Show the table"
    assert view.river.canvas.hasFocus()
    view.over.setFocus()
    traced.rig.keys("Return")
    assert not view.river.isVisible()
    assert view.yards.view.hasFocus()
    assert view.over.text() == "Show the river"
    traced.rig.window.resize(1280, 800)
    traced.rig.settle()
    assert view.river.isVisible()
    assert view.yards.isVisible()
    assert not view.over.isVisible()


def test_a_folder_that_cannot_be_written_is_said(traced: Traced) -> None:
    (traced.rig.folder / "papers").write_text("a file stands here", encoding="utf-8")
    traced.rig.scan(traced.drum)
    traced.rig.keys("Ctrl+P")
    assert traced.view.slot.sentence().startswith("Not printed. ")
    assert traced.rig.opened == []


def test_the_keys_of_the_page(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    asked: list[str] = []
    traced.view.asks.card.connect(asked.append)
    assert traced.view.handle("card")
    traced.view.turn.setFocus()
    assert traced.view.handle("card")
    assert asked == [traced.view.yards.model.key_at(0), traced.drum]
    assert traced.view.handle("trace-this")
    traced.rig.settle()
    assert traced.view.presenter.forward
    assert not traced.view.handle("repeat")


def test_an_answer_does_not_take_the_keyboard_from_elsewhere(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    traced.rig.keys("Ctrl+2")
    focused = traced.rig.focused()
    traced.rig.told(Register("yard", {"name": "Coulee"}))
    assert traced.rig.focused() == focused


@pytest.mark.parametrize("width", [1280, 1024, 853, 640])
def test_the_last_column_keeps_its_plate_at_every_width(traced: Traced, width: int) -> None:
    traced.rig.window.resize(width, 700)
    traced.rig.scan(traced.drum)
    geometry = traced.view.river.canvas.geometry_now()
    assert geometry is not None
    spine = geometry.spine(traced.drum)
    assert spine is not None
    assert spine.plate is not None
    assert spine.plate.lines[0] == traced.drum
