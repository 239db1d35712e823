"""The page of a residue in a window, by keys and scanner."""

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.residue_rows import residue_columns
from honeyledger.desktop.stations.trace.residue_view import ResidueView
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.residues import CAUTION
from tests.desktop.recall_rig import Shop
from tests.desktop.rig import SOON, Rig
from tests.support.terminal import Terminal


@pytest.fixture
def shop(qtbot: QtBot, tmp_path: Path) -> Iterator[Shop]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    made = Shop(rig).fill()
    rig.keys("Ctrl+8")
    rig.scan(made.yards[0])
    rig.keys("Ctrl+Shift+N")
    rig.settle()
    yield made
    rig.close()


def page(shop: Shop) -> ResidueView:
    found = shop.trace.asides.shown()
    assert isinstance(found, ResidueView)
    return found


def type_it(shop: Shop, level: str, limit: str) -> None:
    """From the substance on, each with Enter behind it; the last one reckons."""
    rig = shop.rig
    rig.type("Substance A")
    rig.keys("Return")
    rig.type(level)
    rig.type(limit)
    rig.settle()


def test_by_keys_from_the_yard_that_is_traced_to_every_lot(shop: Shop) -> None:
    view = page(shop)
    assert view.fields["code"].text() == shop.yards[0]
    assert shop.rig.focused().startswith("Substance")
    type_it(shop, "40", "10")
    assert view.answer.accessibleName().startswith(f"Substance A in {shop.yards[0]}. Measured 40.")
    assert view.caution.sentence() == CAUTION
    found = view.presenter.found
    assert found is not None
    assert list(view.table.model.rows()) == list(found.lots)
    assert [row.expected for row in found.lots] == sorted(
        (row.expected for row in found.lots), reverse=True
    )
    assert view.table.has_keyboard()
    carded: list[str] = []
    view.asks.card.connect(carded.append)
    assert view.handle("card")
    assert carded == [found.lots[0].code]
    assert not view.handle("print")


def test_the_figures_are_those_of_the_terminal(shop: Shop) -> None:
    type_it(shop, "40.5", "10")
    terminal = Terminal(shop.rig.folder, where=str(shop.rig.file))
    told = terminal.json("residue", shop.yards[0], "--level", "40.5", "--limit", "10")
    shown = page(shop).table.model.rows()
    assert [asdict(row) for row in shown] == told["lots"]
    printed = terminal.do("residue", shop.yards[0], "--level", "40.5", "--limit", "10")
    columns = {one.key: one for one in residue_columns("kg", judged=True)}
    for row in shown:
        line = next(one for one in printed.splitlines() if row.code in one)
        for key in ("code", "what", "share", "expected", "most", "limit"):
            assert columns[key].text(row) in line


def test_a_refusal_stands_at_its_field_and_nothing_old_stays(shop: Shop) -> None:
    view = page(shop)
    type_it(shop, "40", "10")
    assert view.table.model.rowCount() > 0
    view.fields["level"].set_text("0")
    view.reckon.click()
    shop.rig.settle()
    assert view.messages.sentence() == (
        "Nothing is reckoned. Say the level: a figure above 0, in µg/kg."
    )
    assert view.fields["level"].box.refused
    assert view.table.model.rowCount() == 0
    assert "40" not in view.answer.sentence.text()
    assert view.caution.sentence() == CAUTION


def test_what_is_recorded_meanwhile_leaves_the_keyboard_where_it_is(shop: Shop) -> None:
    view = page(shop)
    type_it(shop, "40", "")
    assert view.figures.heading.text() == "Lots"
    view.form.take_focus(view.fields["level"])
    before = view.presenter.found
    shop.rig.told(Register("yard", {"name": "Moor"}))
    shop.rig.settle()
    assert view.presenter.found is not before
    assert shop.rig.focused().startswith("Level")


def test_a_code_that_is_scanned_is_taken_and_one_leads_back(shop: Shop) -> None:
    view = page(shop)
    type_it(shop, "40", "10")
    assert view.table.model.rowCount() > 0
    shop.rig.scan(shop.lot)
    assert view.fields["code"].text() == shop.lot
    assert view.table.model.rowCount() == 0
    view.back.setFocus(Qt.FocusReason.TabFocusReason)
    shop.rig.keys("Return")
    assert shop.trace.page.isVisible()
    assert shop.trace.asides.shown() is None


def test_its_button_stands_by_a_trace_forward_alone(shop: Shop) -> None:
    page(shop).back.click()
    assert shop.trace.residue.isVisible()
    shop.rig.scan(shop.jar)
    assert not shop.trace.residue.isVisible()
