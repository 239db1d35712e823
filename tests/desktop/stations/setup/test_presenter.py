"""Setting a house up, step by step."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.setup.presenter import SetupPresenter
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path, begun=False)
    yield made
    made.close()


def _presenter(rig: DeskRig) -> tuple[SetupPresenter, dict[str, list[Any]]]:
    presenter = SetupPresenter(rig.desk, "Europe/Berlin")
    heard: dict[str, list[Any]] = {"turned": [], "saved": [], "refused": []}
    for name, rows in heard.items():
        getattr(presenter, name).connect(rows.append)
    presenter.ask()
    rig.settle()
    return presenter, heard


def _save(rig: DeskRig, presenter: SetupPresenter, **typed: str) -> None:
    presenter.save(presenter.begins_as(presenter.kind) | typed)
    rig.settle()


def test_an_empty_ledger_becomes_a_house_that_can_work(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    assert not presenter.is_ready()
    _save(rig, presenter, name="Hill House")
    _save(rig, presenter, name="Mill Lane", colonies="30")
    assert presenter.is_ready()
    _save(rig, presenter)
    _save(rig, presenter)
    _save(rig, presenter, name="Ann Reed")
    assert [kind.key for kind in heard["turned"]] == [
        *("house", "yard", "line", "tank", "operator", "operator"),
    ]
    assert heard["refused"] == []
    assert [message.lead for message in heard["saved"]][:2] == [
        "Hill House is registered.",
        "Mill Lane is registered as Y26-0001-P.",
    ]
    page = presenter.page
    assert page is not None
    assert page.house["zone"] == "Europe/Berlin"
    assert page.registers["vessel"][1].record["fed_by"] == page.registers["vessel"][0].key
    assert [row.name for row in page.registers["box"]] == ["deep", "medium", "shallow"]


def test_what_is_refused_changes_nothing(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _save(rig, presenter, name="  ")
    assert [refusal.text for refusal in heard["refused"]] == [
        "Give the house a name, such as it is called in the house."
    ]
    _save(rig, presenter, name="Hill House", zone="Mars")
    assert heard["refused"][1].field == "zone"
    assert rig.head() == (0, rig.head()[1])
    assert presenter.kind.key == "house"


def test_a_kind_can_be_skipped_and_chosen(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    presenter.skip()
    assert presenter.kind.key == "yard"
    presenter.turn("supplier")
    presenter.skip()
    assert presenter.kind.key == "house"


def test_a_record_that_is_there_can_be_shown_and_changed(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    _save(rig, presenter, name="Hill House")
    presenter.turn("box")
    values = presenter.values_of("DEEP")
    assert values == {"name": "deep", "honey_g": "25.5", "tare_g": "8.5", "frames": "9"}
    assert presenter.values_of("jumbo") is None
    _save(rig, presenter, **(values | {"honey_g": "24"}))
    assert presenter.page is not None
    deep = presenter.page.registers["box"][0]
    assert (deep.key, deep.record["honey_g"], deep.record["tare_g"]) == ("deep", 24_000, 8_500)


def test_a_house_with_yards_begins_with_what_it_lacks(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    _save(rig, presenter, name="Hill House")
    _save(rig, presenter, name="Mill Lane")
    again, heard = _presenter(rig)
    assert [kind.key for kind in heard["turned"]] == ["line"]
    assert again.begins_as(again.kind) == {"name": "Line 1"}
