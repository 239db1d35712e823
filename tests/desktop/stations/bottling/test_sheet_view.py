"""The sheet beside the filler: what is open, or what there is at rest."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.typed import LABELS, START
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.bottling_rig import PRODUCT, Filler
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


def test_at_rest_there_is_honey_to_bottle_and_jars_on_hand(filler: Filler) -> None:
    sheet = filler.view.sheet
    assert sheet.panel.heading.text() == "Honey to bottle"
    assert sheet.stack.currentWidget() is sheet.starting
    assert not sheet.planned.isVisible()
    assert not sheet.claims.isVisible()
    assert not sheet.bar.isVisible()
    assert [row.name for row in sheet.feeds.model.rows()] == ["Drum 1", "Drum 2"]
    filler.presenter.choose(LABELS)
    assert sheet.stack.currentWidget() is sheet.jars
    assert sheet.panel.heading.text() == "Jars on hand"


def test_a_plan_shows_what_it_will_hold(filler: Filler) -> None:
    filler.scan(filler.first)
    sheet = filler.view.sheet
    assert sheet.planned.isVisible()
    rows = [(row.name, row.share) for row in sheet.planned.model.rows()]
    assert rows == [("Mill Lane", "100.0"), ("Long Field", "in reach")]
    assert sheet.claims.shown()[0].text == "Mill Lane, Long Field"
    filler.scan(filler.second)
    assert [row.share for row in sheet.planned.model.rows()] == ["62.5", "37.5"]
    assert sheet.figures.heading.text().startswith("Back with Mill Lane, the worst of 2: 160")


def test_an_open_bottling_shows_its_segments(filler: Filler) -> None:
    code = filler.started()
    filler.tell(ChangeOver(code, jars=60))
    filler.rig.desk.refresh.broadcast({"ledger"})
    filler.settle()
    sheet = filler.view.sheet
    assert sheet.panel.heading.text() == f"{code}, Clover 500 g"
    assert [row.serials for row in sheet.segments.model.rows()] == ["1–60", "61–"]
    assert sheet.close_it.isVisible()
    assert not sheet.other.isVisible()


def test_wide_tables_have_all_columns_and_narrow_ones_enough(filler: Filler) -> None:
    filler.started()
    filler.settle()
    sheet, window = filler.view.sheet, filler.window.window
    window.resize(1280, 800)
    filler.settle()
    assert sheet.segments.model.column_keys() == ["name", "serials", "jars"]
    assert not sheet.running.is_stacked()
    window.resize(1920, 1080)
    filler.settle()
    assert sheet.segments.model.column_keys() == ["name", "serials", "jars", "mean", "honey"]


def test_a_row_that_is_opened_means_what_a_scan_would(filler: Filler) -> None:
    code = filler.started()
    filler.tell(Bottle(code, 20))
    filler.rig.desk.refresh.broadcast({"ledger"})
    filler.settle()
    sheet = filler.view.sheet
    filler.presenter.choose(LABELS)
    sheet.jars.opened.emit(code)
    assert filler.presenter.hand.typed.lot == code
    filler.presenter.choose(START)
    filler.settle()
    sheet.feeds.opened.emit(filler.second)
    assert filler.presenter.hand.typed.order == (filler.second,)
    opened: list[str] = []
    filler.view.asks.card.connect(opened.append)
    sheet.lot_chosen.emit(code)
    assert opened == [code], "where labels are not printed its card opens"


def test_the_card_of_a_segment_is_that_of_its_drum(filler: Filler) -> None:
    filler.started()
    filler.settle()
    sheet = filler.view.sheet
    opened: list[str] = []
    sheet.opened.connect(opened.append)
    key = sheet.segments.model.key_at(0)
    sheet.segments.opened.emit(key)
    assert opened == [filler.first]
    assert sheet.chosen() == ""
    sheet.segments.select(key)
    sheet.segments.view.setFocus()
    assert sheet.chosen() == filler.first


def test_what_a_label_would_claim_and_may_not_is_told_before_anything_is_filled(
    filler: Filler,
) -> None:
    record = {"name": "Clover 500 g", "net_g": 500, "claims_organic": 1}
    filler.tell(Register("product", record, PRODUCT), "")
    filler.scan(filler.first)
    first = filler.view.sheet.claims.shown()[0]
    assert (first.mark, first.lead, first.text) == (
        Mark.REFUSED,
        "Label refused:",
        "organic: Mill Lane, Long Field",
    )
    assert first.more == (
        "The label of Clover 500 g says organic, and Mill Lane, Long Field in what is filled are "
        "not on record as organic. Amend its product, or the records."
    )
    said = filler.view.form.slot.shown()
    assert said is not None
    assert said.sentence == f"Label refused: {first.more}"
