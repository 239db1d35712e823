"""What is typed into the set-up before the house has answered, by keys as a system gives them."""

from pathlib import Path

from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.fields import Field
from tests.desktop.rig import Rig, setup_of


def test_what_is_typed_before_the_house_has_answered_stays_and_goes_on(rig: Rig) -> None:
    """A new house's name begun at once: nothing of it is lost, nor what the rest begins as."""
    rig.window.open_station("setup")
    rig.press("H", "i")
    rig.window.scanner.give_back()
    view = setup_of(rig)
    name = view.by_kind["house"].by_key["name"]
    assert isinstance(name, Field)
    assert (view.presenter.page, name.text()) == (None, "Hi")
    rig.settle()
    assert view.presenter.page is not None
    rig.type("ll House", enter=False)
    assert name.text() == "Hill House"
    assert view.by_kind["house"].values()["zone"], "what the house says stands in the rest"
    assert view.presenter.typed["house"]["name"] == "Hill House"


def test_what_is_typed_early_stands_before_a_draft_that_was_left(
    rig: Rig, qtbot: QtBot, tmp_path: Path
) -> None:
    view = setup_of(rig)
    rig.window.open_station("setup")
    rig.settle()
    rig.type("Old House", enter=False)
    view.open_kind("operator")
    rig.type("Ann Reed", enter=False)
    rig.close()
    again = Rig(qtbot, tmp_path, begun=False)
    again.window.open_station("setup")
    again.press("N")
    again.window.scanner.give_back()
    again.settle()
    told = setup_of(again).presenter
    assert told.kind.key == "house", "where it was typed"
    assert told.typed["house"]["name"] == "N"
    assert told.typed["operator"]["name"] == "Ann Reed"
    again.close()
