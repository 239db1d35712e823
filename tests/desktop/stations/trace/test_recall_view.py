"""The page of a call back: its tables, its paper, its way back."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.recall_rig import Shop
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def shop(qtbot: QtBot, tmp_path: Path) -> Iterator[Shop]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    made = Shop(rig).fill()
    rig.keys("Ctrl+8")
    rig.scan(made.jar)
    rig.keys("Ctrl+Shift+A")
    yield made
    rig.close()


def test_each_table_is_shown_by_its_button_and_keeps_its_figures(shop: Shop) -> None:
    recall = shop.recall
    assert [row.name for row in recall.tables["who"].model.rows()] == [
        "Corner Shop",
        "Mill Bakery",
    ]
    assert recall.tables["who"].foot.totals()["jars"].text == "120"
    recall.show_kind("lots")
    assert recall.stack.currentWidget() is recall.tables["lots"]
    (row,) = (one for one in recall.tables["lots"].model.rows() if one.code == shop.lot)
    assert (row.here_g, row.sent_g) == (40_000, 60_000)
    recall.show_kind("from")
    assert {row.name for row in recall.tables["from"].model.rows()} == {"Long Field", "Mill Lane"}
    heading = f"What is affected if {shop.lot} is called back"
    assert recall.table.view.accessibleName() == heading


def test_the_card_is_of_the_row_in_hand_and_a_customer_has_none(shop: Shop) -> None:
    recall = shop.recall
    asked: list[str] = []
    recall.asks.card.connect(asked.append)
    assert recall.handle("card")
    recall.show_kind("lots")
    recall.table.select(shop.lot)
    assert recall.handle("card")
    number = shop.rig.told(Complain(shop.jar, "sour")).entries[0].id
    recall.show_kind("complaints")
    recall.table.select(str(number))
    assert recall.handle("card")
    assert asked == [shop.jar, shop.lot, shop.lot]


def test_a_warning_stands_until_all_of_it_is_held(shop: Shop) -> None:
    rig = shop.rig
    assert shop.recall.slot.sentence().startswith("Not all of it is held.")
    rig.type("glass")
    rig.keys("Return")
    assert shop.recall.slot.sentence().startswith("Nothing of it is free here.")


def test_back_to_the_trace_by_its_button(shop: Shop) -> None:
    shop.recall.back.setFocus(Qt.FocusReason.TabFocusReason)
    shop.rig.keys("Return")
    assert not shop.is_on_recall()
    assert shop.trace.page.isVisible()


def test_a_folder_that_cannot_be_written_is_said(shop: Shop) -> None:
    (shop.rig.folder / "papers").write_text("a file stands here", encoding="utf-8")
    shop.rig.keys("Ctrl+P")
    assert shop.recall.slot.sentence().startswith("Not printed. ")
    assert shop.rig.opened == []


def test_a_refused_hold_goes_to_its_field(shop: Shop) -> None:
    shop.rig.keys("Return", "Return")
    shown = shop.recall.form.slot.sentence()
    assert shown.startswith("Not recorded. ")
    assert shop.rig.focused().startswith("Reason")


def test_where_it_comes_from_is_on_the_map_too(shop: Shop) -> None:
    rig, recall = shop.rig, shop.recall
    recall.show_kind("who")
    assert not recall.map_it.isVisible()
    recall.show_kind("from")
    yard = recall.tables["from"].model.rows()[0].code
    name = recall.tables["from"].model.rows()[0].name
    place = {"latitude": 496_500_000, "longitude": -984_400_000}
    rig.told(Register("yard", {"name": name, **place}, yard))
    assert recall.map_it.isVisible()
    recall.map_it.click()
    assert recall.stack.currentWidget() is recall.map
    assert recall.map.hasFocus()
    recall.map.selected.emit(yard)
    assert recall.tables["from"].selected_key() == yard
    assert recall.map_it.text() == "Hide map"
    recall.map_it.click()
    assert recall.stack.currentWidget() is recall.tables["from"]
    assert recall.tables["from"].view.hasFocus()


def test_a_complaint_is_carried_over_to_a_new_case(shop: Shop) -> None:
    rig, recall = shop.rig, shop.recall
    number = rig.told(Complain(shop.jar, "splinters")).entries[0].id
    recall.show_kind("complaints")
    recall.table.select(str(number))
    recall.call_back.setFocus(Qt.FocusReason.TabFocusReason)
    rig.keys("Return")
    rig.settle()
    view = rig.window.stations["recalls"]
    assert isinstance(view, RecallsView)
    assert view.widget.isVisible()
    assert view.presenter.asking.kind == OPEN
    assert view.presenter.asking.now().codes("lots") == (shop.jar,)


def test_the_cases_are_a_button_away(shop: Shop) -> None:
    shop.recall.cases.click()
    shop.rig.settle()
    assert shop.rig.window.stations["recalls"].widget.isVisible()
