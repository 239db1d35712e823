"""From nothing to the first pallet received: by keys alone, nothing half written."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger import bootstrap
from honeyledger.desktop import language
from honeyledger.desktop.first_run.steps import Step
from honeyledger.services.dock import dock_day
from honeyledger.settings import Settings
from tests.desktop.first_rig import FirstRig
from tests.desktop.rig import Rig

# What a hand does, names typed in full. At a second a key and five more a field it is 3 min 30 s.
MOST_KEYS = 70
MOST_FIELDS = 28


@pytest.fixture
def first(qtbot: QtBot, tmp_path: Path) -> Iterator[FirstRig]:
    made = FirstRig(qtbot, tmp_path)
    yield made
    made.close()


def _make(first: FirstRig, name: str = "Hill House") -> None:
    first.key("Return")  # the size it has
    first.key("Return")  # make a house
    assert first.window.steps.step is Step.HOUSE
    first.type(name)
    for _ in range(5):  # kilograms, this computer's zone, the two tolerances, no letters
        first.type("")


class Counting:
    """A window on the house that was made, whose keys and fields are counted on."""

    def __init__(self, rig: Rig, first: FirstRig) -> None:
        self.rig = rig
        self.pressed, self.fields = first.pressed, first.fields

    def keys(self, *names: str) -> None:
        self.pressed += len(names)
        self.rig.keys(*names)

    def type(self, *texts: str) -> None:
        for text in texts:
            self.pressed += len(text) + 1
            self.fields += 1
            self.rig.type(text)


def test_from_nothing_to_the_first_pallet_by_keys_alone(
    qtbot: QtBot, tmp_path: Path, first: FirstRig
) -> None:
    _make(first)
    opened = first.window.opened
    assert opened is not None
    assert opened.where == first.where
    first.close()
    rig = Rig(qtbot, tmp_path, begun=False)
    hand = Counting(rig, first)
    try:
        rig.window.open_station("setup")
        rig.settle()
        hand.type("Ann Reed", "")
        hand.type("Mill Lane", "30", "")
        hand.type("")  # no second yard
        hand.type("")  # the usual boxes
        hand.type("")  # Line 1
        hand.type("", "", "")  # Tank 1, fed by it, of any size
        hand.keys("Return")  # to the dock, as is offered
        assert rig.window.shell.open_key() == "dock"
        hand.type("Mill", "", "", "", "36", "", "", "", "")
        assert rig.toast().lead.endswith("received: 36 supers, ≈ 533 kg of honey.")
        arrivals = rig.house.ask(lambda view: dock_day(view, rig.now_ms)).arrivals
        assert [(row.yard, row.supers) for row in arrivals] == [("Mill Lane", 36)]
        assert hand.pressed <= MOST_KEYS, hand.pressed
        assert hand.fields <= MOST_FIELDS, hand.fields
    finally:
        rig.close()


def test_what_is_half_filled_is_there_after_the_computer_went_off(first: FirstRig) -> None:
    first.key("Return")
    first.key("Return")
    first.type("Hill Hou")
    first.key("Right")
    first.leave()
    assert not Path(first.where).exists()
    first.start()
    assert first.window.steps.step is Step.HOUSE
    assert first.window.form.values()["name"] == "Hill Hou"


def test_the_first_step_offers_the_languages_and_begins_anew_in_another(
    first: FirstRig, light: QApplication
) -> None:
    offered = first.window.lines.languages
    assert offered.label.text() == "Language · Idioma"
    assert [button.text() for button in offered.buttons()] == ["English", "Español"]
    assert offered.key() == "en"
    offered.buttons()[0].click()
    assert not first.window.is_again, "it is in English already"
    offered.buttons()[1].click()
    first.settle()
    assert first.window.is_again
    assert [one.language for one in first.kept] == ["es"]
    first.settings = first.window.steps.settings
    language.wear(light, first.settings.language)
    first.start()
    assert first.window.steps.step is Step.SIZE
    assert first.window.lines.languages.key() == "es"
    assert first.window.go.text() == "Esta se lee bien"


def test_a_size_that_reads_better_begins_the_window_anew(first: FirstRig) -> None:
    for _ in range(2):
        first.key("Down")
    first.key("Return")
    assert first.window.is_again
    assert not first.window.isVisible()
    assert [one.scale for one in first.kept] == ["150"]
    first.settings = first.window.steps.settings
    first.start()
    assert first.window.steps.step is Step.WAY
    first.key("Escape")
    assert first.window.lines.scale() == "150"


def test_escape_goes_one_back_and_nothing_typed_is_lost(first: FirstRig) -> None:
    first.key("Return")
    first.key("Return")
    first.type("Hill House")
    first.key("Escape")
    assert first.window.steps.step is Step.WAY
    first.key("Return")
    assert first.window.form.values()["name"] == "Hill House"


def test_a_house_without_a_name_is_not_made(first: FirstRig) -> None:
    _make(first, "")
    assert first.says() == "Nothing was made. Give the house a name: it stands on every paper."
    assert first.focused() == "Name of the house"
    assert not list(first.folder.glob("house*"))


def test_a_zone_that_is_none_is_refused_and_nothing_is_written(first: FirstRig) -> None:
    first.key("Return")
    first.key("Return")
    for text in ("Hill House", "", "Mars", "", "", ""):
        first.type(text)
    assert first.says().startswith("Nothing was made. Mars is not a time zone")
    assert first.focused() == "Time zone"
    assert not list(first.folder.glob("house*"))


def test_a_house_that_is_there_is_opened_and_remembered(first: FirstRig) -> None:
    other = first.folder / "other.honeyledger"
    bootstrap.open_house(str(other), create=True).store.close()
    first.key("Return")
    for key in ("Down", "Down", "Return"):
        first.key(key)
    assert first.focused() == "File of the house"
    first.type("")
    assert first.says() == (
        "Nothing was made. Name the file of the house, or choose it: nothing was opened."
    )
    first.type(str(first.folder / "none.honeyledger"))
    assert "There is no house at" in first.says()
    first.file_to_choose = other
    first.window.choose.click()
    first.key("Return")
    assert first.window.opened is not None
    assert first.window.opened.where == str(other)
    assert first.kept == [Settings(house=str(other), tones=False)]
    assert first.window.steps.settings.house == str(other)


def test_the_sample_season_is_looked_round_in_and_not_remembered(
    first: FirstRig, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bootstrap, "data_folder", lambda: first.folder / "data")
    first.key("Return")
    first.key("Down")
    first.key("Return")
    opened = first.window.opened
    assert opened is not None
    assert opened.house.ask(lambda view: view.head().entry) > 100
    assert first.kept == []
    assert not Path(first.where).exists()


def test_a_house_that_was_meant_to_be_there_is_missed(qtbot: QtBot, first: FirstRig) -> None:
    first.is_missed = True
    first.start()
    first.key("Return")
    assert first.says().startswith("The house is not there. There is none at ")


def test_who_only_reckons_needs_no_house(first: FirstRig) -> None:
    first.key("Return")  # the size it has
    for _ in range(3):
        first.key("Down")
    first.key("Return")
    reckoning = first.window.reckoning
    assert reckoning is not None
    assert reckoning.isVisible()
    reckoning.close()
    assert first.window.opened is None
