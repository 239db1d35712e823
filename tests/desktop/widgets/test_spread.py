"""Panels stand on the grid; in a narrow window one at a time, with tabs."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QRadioButton
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread


def _spread(qtbot: QtBot, width: int, *, above: bool = False) -> tuple[Spread, Panel, Panel]:
    form, arrivals = Panel("Receive supers"), Panel("166 of 206 supers are in")
    form.add_bar()
    parts = [Part(form, "Receive supers", 5, 4), Part(arrivals, "Arrivals", 7, 4)]
    spread = Spread(parts, above=Answer() if above else None)
    qtbot.addWidget(spread)
    spread.resize(width, 560)
    spread.show()
    return spread, form, arrivals


def _edges(panel: Panel, spread: Spread) -> tuple[int, int]:
    left = panel.mapTo(spread, panel.rect().topLeft()).x()
    return left, left + panel.width()


def test_at_1280_the_form_has_five_columns_and_the_arrivals_seven(qtbot: QtBot) -> None:
    spread, form, arrivals = _spread(qtbot, 1280)
    assert _edges(form, spread) == (24, 24 + 504)
    assert _edges(arrivals, spread) == (24 + 504 + 16, 1256)
    assert form.height() == 528
    assert not spread.is_tabbed()


def test_at_1024_both_have_four_of_eight(qtbot: QtBot) -> None:
    spread, form, arrivals = _spread(qtbot, 1024)
    assert _edges(form, spread)[0] == 16
    assert _edges(arrivals, spread)[1] == 1008
    assert abs(form.width() - arrivals.width()) <= 1


def test_panels_that_want_more_than_the_eight_columns_take_turns(qtbot: QtBot) -> None:
    sheet, ties = Panel("Run sheet"), Panel("What this run ties together")
    spread = Spread([Part(sheet, "Run sheet", 8, 8), Part(ties, "Ties", 4, 8)])
    qtbot.addWidget(spread)
    spread.resize(1024, 560)
    spread.show()
    assert spread.is_tabbed()
    assert sheet.isVisible()
    assert not ties.isVisible()
    assert _edges(sheet, spread) == (16, 1008)


@pytest.mark.parametrize(("width", "tabbed"), [(1000, False), (999, True), (900, True)])
def test_half_of_eight_columns_is_enough_for_a_form_from_1000(
    qtbot: QtBot, width: int, tabbed: bool
) -> None:
    spread, form, arrivals = _spread(qtbot, width)
    assert spread.is_tabbed() is tabbed
    assert form.isVisible()
    assert arrivals.isVisible() is not tabbed


def test_at_853_one_is_shown_at_a_time(qtbot: QtBot) -> None:
    spread, form, arrivals = _spread(qtbot, 853)
    assert spread.is_tabbed()
    assert form.isVisible()
    assert not arrivals.isVisible()
    tabs = spread.findChildren(QRadioButton)
    assert [tab.text() for tab in tabs] == ["Receive supers", "Arrivals"]
    assert all(tab.height() >= 40 for tab in tabs)
    assert not form.heading.isVisible(), "the tab says it already"
    assert form.bar is not None
    assert form.bar.height() == 63
    qtbot.mouseClick(tabs[1], Qt.MouseButton.LeftButton)
    assert arrivals.isVisible()
    assert not form.isVisible()
    spread.show_part(0)
    assert form.isVisible()
    spread.grab()


def test_widened_again_both_stand_side_by_side_under_the_answer(qtbot: QtBot) -> None:
    spread, form, arrivals = _spread(qtbot, 700, above=True)
    spread.show_part(1)
    spread.resize(1280, 560)
    assert form.isVisible()
    assert arrivals.isVisible()
    assert form.heading.isVisible()
    top = form.mapTo(spread, form.rect().topLeft()).y()
    assert top == 64


def test_a_panel_is_called_otherwise_on_its_tab(qtbot: QtBot) -> None:
    spread, _, _ = _spread(qtbot, 853)
    spread.name_part(1, "Sent")
    assert [tab.text() for tab in spread.findChildren(QRadioButton)][:2] == [
        "Receive supers",
        "Sent",
    ]


def test_a_panel_of_no_columns_stands_behind_its_tab_alone_while_it_is_offered(
    qtbot: QtBot,
) -> None:
    form, sheet, waits = Panel("On the floor"), Panel("Run"), Panel("What waits")
    parts = [Part(form, "Floor", 5, 8), Part(sheet, "Run", 7, 8), Part(waits, "Waits", 0, 0)]
    spread = Spread(parts)
    qtbot.addWidget(spread)
    spread.resize(640, 400)
    spread.show()
    assert spread.offered() == [0, 1]
    spread.offer_part(2, True)
    spread.show_part(2)
    assert spread.offered() == [0, 1, 2]
    assert waits.isVisible()
    assert not form.isVisible()
    spread.offer_part(2, False)
    assert form.isVisible()
    assert not waits.isVisible()
    spread.offer_part(2, True)
    spread.resize(1280, 560)
    assert [one.isVisible() for one in (form, sheet, waits)] == [True, True, False]
    assert _edges(sheet, spread) == (24 + 504 + 16, 1256)
