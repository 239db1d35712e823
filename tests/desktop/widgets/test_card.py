"""A lot's card has the cut corner and the hole of a tag, and the two things done next."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPointF, QRectF, Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.lot_card import CardQuality
from honeyledger.desktop.widgets.card import LotCard, tag_path
from honeyledger.desktop.widgets.card_parts import EventRow, QualityRow
from honeyledger.desktop.widgets.text import Text
from tests.desktop.gallery_card import drum


@pytest.fixture
def card(qtbot: QtBot) -> LotCard:
    made = LotCard()
    qtbot.addWidget(made)
    made.resize(430, 640)
    made.show_facts(drum())
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    return made


def test_the_corner_is_cut_and_the_hole_is_punched() -> None:
    path = tag_path(QRectF(0, 0, 400, 300))
    assert not path.contains(QPointF(5, 5)), "cut off 16 by 16"
    assert path.contains(QPointF(12, 12))
    assert not path.contains(QPointF(24, 24)), "the hole"
    assert path.contains(QPointF(30, 24))
    assert path.contains(QPointF(397, 150))


def test_trace_and_print_name_the_lot(qtbot: QtBot, card: LotCard) -> None:
    assert card.code() == "D26-0611-Y"
    with qtbot.waitSignal(card.trace_asked) as caught:
        qtbot.mouseClick(card.trace, Qt.MouseButton.LeftButton)
    assert caught.args == ["D26-0611-Y"]
    with qtbot.waitSignal(card.print_asked) as caught:
        qtbot.mouseClick(card.print, Qt.MouseButton.LeftButton)
    assert caught.args == ["D26-0611-Y"]


def test_escape_and_the_cross_put_it_away(qtbot: QtBot, card: LotCard) -> None:
    card.take_focus()
    with qtbot.waitSignal(card.closed):
        qtbot.keyClick(card, Qt.Key.Key_Escape)
    with qtbot.waitSignal(card.closed):
        qtbot.mouseClick(card.away, Qt.MouseButton.LeftButton)


def test_holds_are_said_at_the_top_and_history_below(qtbot: QtBot, card: LotCard) -> None:
    assert card.slot.isVisible()
    assert "treatment record" in card.slot.sentence()
    rows = card.findChildren(EventRow)
    assert len(rows) == 3
    with qtbot.waitSignal(card.entry_asked) as caught:
        qtbot.mouseClick(rows[0], Qt.MouseButton.LeftButton)
    assert caught.args == [48_190]


def test_another_lot_takes_its_place(card: LotCard) -> None:
    card.show_facts(replace(drum(), code="S26-0415-9", messages=(), can_print=False))
    assert card.code() == "S26-0415-9"
    assert card.accessibleName() == "Card of S26-0415-9"
    assert not card.slot.isVisible()
    assert not card.print.isVisible()
    card.grab()


def test_with_nothing_to_do_next_there_is_no_bar(card: LotCard) -> None:
    assert card.bar.isVisible()
    card.show_facts(replace(drum(), can_print=False, can_trace=False, has_papers=False))
    assert not card.bar.isVisible()
    card.show_facts(replace(drum(), can_print=False))
    assert card.bar.isVisible()


def test_blends_are_told_under_a_heading_of_their_own(card: LotCard) -> None:
    blend = CardQuality("21 Sep 2026 09:55", "878.9 kg", ("D26-0023-Z 291.6 kg (33.2 %)",))
    card.show_facts(replace(drum(), blends=(blend,)))
    captions = [one.text() for one in card.findChildren(Text)]
    assert "Blended in it" in captions
    names = [one.accessibleName() for one in card.findChildren(QualityRow)]
    assert any("878.9 kg" in name and "D26-0023-Z" in name for name in names)
