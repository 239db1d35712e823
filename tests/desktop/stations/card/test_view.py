"""The card as the window holds it: what its buttons and keys ask for."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.card.view import CardView
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig, desk_with_a_pallet


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    yield from desk_with_a_pallet(qtbot, tmp_path)


def _view(rig: DeskRig) -> CardView:
    made = CardView(rig.desk)
    rig.bot.addWidget(made.widget)
    return made


def test_a_card_is_shown_when_it_has_been_found(rig: DeskRig) -> None:
    view = _view(rig)
    found: list[bool] = []
    view.found.connect(lambda: found.append(True))
    view.show_code("S26-0001-G")
    assert not found
    rig.settle()
    assert found == [True]
    assert view.widget.code() == "S26-0001-G"
    assert view.widget.accessibleName() == "Card of S26-0001-G"


def test_its_keys_mean_the_lot_it_shows(rig: DeskRig) -> None:
    view = _view(rig)
    asked: list[str] = []
    view.asks.trace.connect(asked.append)
    assert not view.handle("trace-this")
    view.show_code("S26-0001-G")
    rig.settle()
    assert view.handle("trace-this")
    assert asked == ["S26-0001-G"]
    assert not view.handle("find")
    view.put_away()
    assert not view.handle("trace-this")


def test_a_jar_that_was_scanned_is_traced_itself_and_not_its_lot(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = DeskRig(qtbot, tmp_path)
    goods = Goods(rig)
    view = _view(rig)
    asked: list[str] = []
    view.asks.trace.connect(asked.append)
    jar = goods.jar(goods.old, 7)
    view.show_code(jar.lower())
    rig.settle()
    assert view.widget.code() == goods.old
    assert view.handle("trace-this")
    view.widget.trace.click()
    view.show_code("J26-9999-00007-R")
    rig.settle()
    assert view.handle("trace-this"), "what is no jar of this house leaves the card as it was"
    view.show_code(goods.old)
    rig.settle()
    assert view.handle("trace-this")
    assert asked == [jar, jar, jar, goods.old]
    rig.close()


def test_a_yard_has_its_pull_sheet_shown_and_nothing_else_has(rig: DeskRig) -> None:
    view = _view(rig)
    said: list[str] = []
    view.asks.say.connect(lambda message: said.append(f"{message.lead} {message.text}"))
    view.show_code("G26-0001-3")
    rig.settle()
    assert view.widget.sheet.isHidden()
    assert view.widget.print.text() == "Label"
    view.show_code("Y26-0001-P")
    rig.settle()
    assert view.widget.print.text() == "Code"
    view.widget.sheet.click()
    rig.settle()
    file = rig.folder / "papers" / "Pull sheet Y26-0001-P.pdf"
    assert rig.opened == [file]
    assert said == [f"Pull sheet is in {file}."]


def test_the_keyboard_goes_to_what_the_card_has(rig: DeskRig) -> None:
    view = _view(rig)
    view.show_code("G26-0001-3")
    rig.settle()
    view.widget.show()
    rig.bot.waitExposed(view.widget)
    view.take_focus()
    assert view.widget.trace.isHidden(), "a pallet is no lot to be traced"
    assert view.widget.focusWidget() is view.widget.print
    assert view.handle("print")
    rig.settle()
    assert rig.opened == [rig.folder / "papers" / "G26-0001-3.pdf"]


def test_the_papers_of_a_lot_are_chosen_on_its_card_and_say_where_they_are(rig: DeskRig) -> None:
    view = _view(rig)
    said: list[str] = []
    view.asks.say.connect(lambda message: said.append(f"{message.lead} {message.text}"))
    view.show_code("S26-0001-G")
    rig.settle()
    view.widget.papers.click()
    (menu,) = view.widget.findChildren(QMenu)
    titles = [one.text() for one in menu.actions()]
    assert titles == ["Lot history", "Trace report", "Mass balance", "Dock receipt"]
    assert menu.activeAction() is menu.actions()[0], "Enter takes it"
    rig.bot.keyClick(menu, Qt.Key.Key_Return)
    rig.settle()
    file = rig.folder / "papers" / "Lot history S26-0001-G.pdf"
    assert rig.opened == [file]
    assert said == [f"Lot history is in {file}."]
    assert len(rig.house.ask(lambda view: view.entries(("printed",)))) == 1


def test_a_pallet_has_its_dock_receipt(rig: DeskRig) -> None:
    view = _view(rig)
    view.show_code("G26-0001-3")
    rig.settle()
    view.widget.papers.click()
    (menu,) = view.widget.findChildren(QMenu)
    (receipt,) = menu.actions()
    receipt.trigger()
    menu.close()
    rig.settle()
    assert rig.opened == [rig.folder / "papers" / "Dock receipt G26-0001-3.pdf"]
    view.show_code("Y26-0001-P")
    rig.settle()
    assert view.widget.papers.isHidden(), "a yard has its pull sheet alone"


def test_a_complaint_is_about_the_very_jar_that_was_scanned(qtbot: QtBot, tmp_path: Path) -> None:
    rig = DeskRig(qtbot, tmp_path)
    goods = Goods(rig)
    view = _view(rig)
    asked: list[str] = []
    view.asks.complain.connect(asked.append)
    jar = goods.jar(goods.old, 7)
    view.show_code(jar)
    rig.settle()
    assert view.widget.complaint is not None
    view.widget.complaint.click()
    assert asked == [jar]
    rig.close()


def test_a_visitor_takes_in_no_complaint(rig: DeskRig) -> None:
    rig.desk.is_visit = True
    view = _view(rig)
    view.show_code("S26-0001-G")
    rig.settle()
    assert view.widget.complaint is None
    assert not view.widget.trace.isHidden()
