"""The trace page in the window: scanned, chosen, walked, turned, printed."""

import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.exposure.view import ExposureView
from honeyledger.desktop.widgets import river, river_picture
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import SOON, Rig
from tests.desktop.trace_rig import Traced


@pytest.fixture
def traced(qtbot: QtBot, tmp_path: Path) -> Iterator[Traced]:
    rig = Rig(qtbot, tmp_path, first=SOON)
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
    assert view.slot.sentence().endswith(" ms, 5 lots in reach, 100.0 % accounted for.")


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
    assert (view.over.text(), view.over.accessibleName()) == ("Table", "Show the table")
    assert (view.turn.text(), view.turn.accessibleName()) == ("Forward", "Where did it go?")
    assert not view.slot.is_cut()
    assert view.river.canvas.hasFocus()
    view.over.setFocus()
    traced.rig.keys("Return")
    assert not view.river.isVisible()
    assert view.yards.view.hasFocus()
    assert view.over.accessibleName() == "Show the river"
    traced.rig.window.resize(1280, 800)
    traced.rig.settle()
    assert view.river.isVisible()
    assert view.yards.isVisible()
    assert not view.over.isVisible()


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


def test_the_river_is_laid_out_and_painted_beside_the_windows_thread(
    traced: Traced, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = threading.get_ident()
    seen: dict[str, set[bool]] = {"laid": set(), "painted": set()}

    def told(what: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def doing(*args: Any) -> Any:
            seen[what].add(threading.get_ident() == own)
            return real(*args)

        return doing

    monkeypatch.setattr(river, "laid_river", told("laid", river.laid_river))
    monkeypatch.setattr(river_picture, "paint_water", told("painted", river_picture.paint_water))
    traced.rig.scan(traced.drum)
    traced.view.river.zoom_by(1)
    traced.rig.settle()
    traced.view.river.canvas.setFocus(Qt.FocusReason.TabFocusReason)
    traced.rig.keys("Right")
    assert seen == {"laid": {False}, "painted": {False}}


def test_the_map_stands_beside_the_rows_and_follows_them(qtbot: QtBot, traced: Traced) -> None:
    view, rig = traced.view, traced.rig
    rig.scan(traced.drum)
    assert not view.row.map.isVisible(), "no yard has its coordinates yet"
    rows = view.yards.model.rows()
    codes = [row.code for row in rows]
    for row, east in zip(rows, (0, 5_000_000), strict=True):
        place = {"name": row.name, "latitude": 490_000_000, "longitude": east}
        rig.told(Register("yard", place, row.code))
    assert view.row.map.isVisible()
    assert not view.bodies.map.isVisible(), "a narrow page keeps its columns"
    view.row.map.setFocus(Qt.FocusReason.TabFocusReason)
    rig.keys("Return")
    assert view.bodies.map.isVisible()
    assert view.bodies.map.hasFocus()
    rig.keys("PgDown", "PgDown")
    assert view.yards.selected_key() == view.bodies.map.chosen
    assert view.bodies.map.accessibleName().startswith("Map of the yards: ")
    other = next(code for code in codes if code != view.bodies.map.chosen)
    at = next(one for one in view.bodies.map.laid_out().placed if one.spot.key == other)
    qtbot.mouseClick(
        view.bodies.map, Qt.MouseButton.LeftButton, pos=QPoint(round(at.x), round(at.y))
    )
    assert view.yards.selected_key() == other
    assert view.river.canvas.selected_key() == f"from {other}"
    rig.window.resize(1920, 1080)
    view.bodies.want_map(None)
    rig.settle()
    assert view.bodies.map.isVisible(), "a wide one has it unasked"
    rig.window.resize(640, 800)
    view.bodies.want_map(True)
    rig.settle()
    assert view.bodies.map.isVisible()
    assert not view.yards.isVisible(), "there is no room beside it"
    view.take_code(codes[0])
    rig.settle()
    assert not view.row.map.isVisible(), "forward there are no yards"


def test_the_river_is_drawn_larger_by_its_buttons(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    traced.view.row.larger.setFocus(Qt.FocusReason.TabFocusReason)
    traced.rig.keys("Return")
    assert traced.view.river.zoom() == 1.5
    traced.view.row.smaller.setFocus(Qt.FocusReason.TabFocusReason)
    traced.rig.keys("Return")
    assert traced.view.river.zoom() == 1.0


def test_what_is_traced_is_a_button_from_its_exposure(traced: Traced) -> None:
    traced.rig.scan(traced.drum)
    button = traced.view.exposure
    if not button.isVisible():
        traced.rig.window.resize(1920, 1080)
        traced.rig.settle()
    button.setFocus(Qt.FocusReason.TabFocusReason)
    traced.rig.keys("Return")
    traced.rig.settle()
    view = traced.rig.window.stations["exposure"]
    assert isinstance(view, ExposureView)
    assert view.widget.isVisible()
    assert view.code.text() == traced.drum
    assert view.presenter.code == traced.drum
