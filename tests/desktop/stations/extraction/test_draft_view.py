"""What is half done on the floor outlives another station, the window, and a crash."""

from pathlib import Path

from pytestqt.qtbot import QtBot

from tests.desktop.floor_rig import OPERATOR, Floor
from tests.desktop.rig import SOON, Rig


def test_typing_outlives_the_window(qtbot: QtBot, tmp_path: Path) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    floor = Floor(rig)
    floor.loaded()
    floor.view.floor.choose("cappings")
    rig.type("133", enter=False)
    rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    again.keys("Ctrl+4")
    view = again.window.stations["extraction"]
    assert view.floor.form.net.text() == "133"  # type: ignore[attr-defined]
    assert view.floor.form.kind == "cappings"  # type: ignore[attr-defined]
    again.close()


def test_a_half_answered_question_outlives_station_and_window(
    qtbot: QtBot, tmp_path: Path
) -> None:
    """A drum that was washed or not is asked, answered with a tap, and nothing is sent."""
    rig = Rig(qtbot, tmp_path, first=SOON)
    floor = Floor(rig)
    floor.loaded()
    form = floor.view.floor.form
    floor.view.floor.choose("close")
    form.how.buttons()[2].click()
    form.pending.buttons()[1].click()
    form.heel.set_text("40")
    form.submit()
    rig.settle()
    floor.view.presenter.leave_closing()
    floor.view.floor.choose("drum")
    form.submit()
    rig.settle()
    form.follows.buttons()[0].click()
    rig.keys("Ctrl+5", "Ctrl+4")
    assert form.follows.key() == "yes"
    rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    floor.rig = again
    again.keys("Ctrl+4")
    form = floor.view.floor.form
    assert form.kind == "drum"
    assert form.follows.isVisible()
    assert (form.follows.key(), form.how.key(), form.pending.key()) == ("yes", "guess", "later")
    presenter = floor.view.presenter
    assert [(row.name, row.grams, row.how) for row in presenter.heels] == [
        ("Tank 1", 40_000, "guess")
    ]
    assert presenter.cappings_pending
    again.close()


def test_what_was_recorded_before_the_program_died_is_recorded_once(
    qtbot: QtBot, tmp_path: Path
) -> None:
    rig = Rig(qtbot, tmp_path, first=SOON)
    floor = Floor(rig)
    run = floor.loaded()
    floor.view.floor.choose("cappings")
    rig.type("41", enter=False)
    draft = next((tmp_path / "drafts").glob("extraction-*.json"))
    kept = draft.read_bytes()
    floor.view.floor.form.record.click()
    rig.settle()
    rig.close()
    draft.write_bytes(kept)  # as if the draft had not been thrown away in time
    again = Rig(qtbot, tmp_path, first=SOON)
    again.desk.operator = OPERATOR
    floor.rig = again
    again.keys("Ctrl+4")
    head = again.head()
    assert floor.view.floor.form.net.text() == "41"
    floor.view.floor.form.record.click()
    again.settle()
    assert again.head() == head
    assert floor.came_out(run) == ["41.0 kg"]
    assert floor.view.floor.form.net.text() == ""
    again.close()
