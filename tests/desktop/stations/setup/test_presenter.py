"""Setting a house up, step by step."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.refresh import ANEW
from honeyledger.desktop.stations.setup.presenter import SetupPresenter
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path, begun=False)
    yield made
    made.close()


def _presenter(rig: DeskRig) -> tuple[SetupPresenter, dict[str, list[Any]]]:
    presenter = SetupPresenter(rig.desk, "Europe/Berlin")
    heard: dict[str, list[Any]] = {"turned": [], "saved": [], "refused": [], "noted": []}
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
    done: list[bool] = []
    presenter.completed.connect(lambda: done.append(True))
    assert not presenter.is_ready()
    _save(rig, presenter, name="Hill House")
    _save(rig, presenter, name="Ann Reed")
    assert presenter.sentence().startswith("Step 3 of 6. Name a yard,")
    assert not presenter.may_go_on()
    _save(rig, presenter, name="Mill Lane", colonies="30")
    assert presenter.is_ready()
    assert presenter.may_go_on()
    presenter.skip()
    presenter.skip()
    _save(rig, presenter)
    assert done == []
    _save(rig, presenter)
    assert done == [True]
    assert [kind.key for kind in heard["turned"]] == [
        *("house", "operator", "yard", "yard", "box", "line", "tank", "tank"),
    ]
    assert heard["refused"] == []
    assert [message.lead for message in heard["saved"]][:3] == [
        "Hill House is registered.",
        "Ann Reed is registered as O26-0001-A.",
        "Mill Lane is registered as Y26-0001-P.",
    ]
    page = presenter.page
    assert page is not None
    assert dict(page.house) == {
        "name": "Hill House",
        "zone": "Europe/Berlin",
        "unit": "kg",
    }
    assert page.registers["vessel"][1].record["fed_by"] == page.registers["vessel"][0].key
    assert [row.name for row in page.registers["box"]] == ["deep", "medium", "shallow"]


def test_a_check_and_this_computer_are_seen_to(rig: DeskRig) -> None:
    presenter, heard = _presenter(rig)
    _save(rig, presenter, name="Hill House")
    presenter.turn("equipment")
    _save(rig, presenter, name="Drum scale", sort="scale")
    presenter.turn("check")
    _save(rig, presenter, equipment="Drum scale", what="20 kg", result="off")
    assert presenter.page is not None
    (last,) = presenter.page.checks.values()
    assert (last.what, last.result) == ("20 kg", "off")
    assert heard["saved"][-1].lead == "The check is written down."
    assert [message.lead for message in heard["noted"][-1]] == [
        "Drum scale is off on 20 kg, and was never checked before: all done with it is in doubt."
    ]
    looks: list[str] = []
    presenter.looked.connect(looks.append)
    again: list[str] = []
    rig.desk.refresh.watch(ANEW, lambda: again.append("anew"))
    presenter.turn("computer")
    _save(rig, presenter, station="bench", look="dark", tones="")
    assert again == []
    presenter.turn("computer")
    _save(rig, presenter, station="bench", look="dark", scale="125", tones="")
    assert again == ["anew"]
    presenter.turn("computer")
    _save(rig, presenter, station="bench", look="dark", language="es", tones="")
    assert again == ["anew", "anew"]
    assert rig.kept[-1].language == "es"
    assert rig.kept[-1].scale == "125"
    assert (rig.desk.station, looks) == ("bench", ["dark"])
    assert heard["saved"][-1].sentence == "Kept."


def test_a_table_that_is_refused_names_every_row(rig: DeskRig, tmp_path: Path) -> None:
    presenter, heard = _presenter(rig)
    _save(rig, presenter, name="Hill House")
    found: list[Any] = []
    presenter.problems.connect(found.append)
    presenter.turn("table")
    file = tmp_path / "yards.csv"
    file.write_text("name,colonies\nMill Lane,many\nHigh Wood,few\n")
    _save(rig, presenter, file=str(file))
    assert len(found[-1]) == 2
    assert heard["refused"][-1].field == "file"
    file.write_text("name,colonies\nMill Lane,30\nHigh Wood,20\n")
    _save(rig, presenter, file=str(file))
    assert heard["saved"][-1].lead == "yards.csv: 2 new yards, 0 changed."
    assert presenter.is_ready()
    assert presenter.kind.key == "operator", "a new house goes on with what it lacks"
    presenter.skip()
    assert presenter.kind.key == "box", "its yards are there"


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
    assert presenter.kind.key == "operator"
    for _ in range(6):
        presenter.skip()
    assert presenter.kind.key == "yard"
    presenter.turn("computer")
    presenter.way.is_on = False
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


def test_a_house_with_yards_goes_on_with_what_it_lacks(rig: DeskRig) -> None:
    presenter, _ = _presenter(rig)
    _save(rig, presenter, name="Hill House")
    presenter.turn("yard")
    _save(rig, presenter, name="Mill Lane")
    rig.settle(presenter.pause)
    rig.desk.drafts.keep("setup-ledger-1", {"seen": ["operator", "box"]})
    again, heard = _presenter(rig)
    assert [kind.key for kind in heard["turned"]] == ["line"]
    assert again.begins_as(again.kind)["name"] == "Line 1"
