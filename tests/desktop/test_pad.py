"""Typed in from the paper pad: each entry at its time, approximate, as from the terminal."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.faces import Faces, what_was_told
from tests.desktop.floor_rig import Floor
from tests.desktop.rig import Rig
from tests.support.houses import MINUTE_MS, START_MS


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.told(Register("yard", {"name": "Mill Lane"}))
    made.keys("Ctrl+2")
    made.now_ms += 5 * 60 * MINUTE_MS
    yield made
    made.close()


def _last(rig: Rig) -> Entry:
    return what_was_told(rig)[0]


def _pallet(rig: Rig, *, again: bool = False) -> None:
    """A pallet of 24; of the next one day, crew and box are passed over."""
    for text in ("mill", "", *(() if again else ("", "")), "24", *(() if again else ("",))):
        rig.type(text)
    for _ in ("gross", "condition", "moisture"):
        rig.type("")


def test_a_pallet_from_the_pad_is_the_same_entry_as_from_the_terminal(
    rig: Rig, tmp_path: Path
) -> None:
    faces = Faces(rig, tmp_path)
    yard = rig.house.ask(lambda view: view.marked("record", "yard/"))[0].subject.partition("/")[2]
    terminal = faces.copy()
    where = rig.focused()
    rig.keys("Ctrl+G")
    assert rig.focused() == "On the pad: when, such as 14:20"
    rig.type("10:20")
    rig.type("")
    assert rig.focused() == where, "the keyboard goes back to where it was"
    assert rig.window.shell.pad_strip.accessibleName() == (
        "From the pad: 24 Jul 2026 10:20, give or take 30 min. Times approximate."
    )
    _pallet(rig)
    act = _last(rig).act
    assert (act.happened.at_ms, act.unsure_ms) == (START_MS + 100 * MINUTE_MS, 30 * MINUTE_MS)
    faces.same(
        *(terminal, "receive", yard, "24", "--pulled", "today"),
        *("--at", "10:20", "--unsure", "30"),
    )


def test_the_next_line_has_its_own_time_and_back_to_now_ends_it(rig: Rig) -> None:
    rig.keys("Ctrl+G")
    rig.type("10:20")
    rig.keys("Right")
    rig.type("")
    _pallet(rig)
    assert _last(rig).act.unsure_ms == 60 * MINUTE_MS
    rig.keys("Ctrl+G")
    rig.type("10:55")
    rig.type("")
    _pallet(rig, again=True)
    assert _last(rig).act.happened.at_ms == START_MS + 135 * MINUTE_MS
    rig.window.shell.pad_strip.now.click()
    _pallet(rig, again=True)
    act = _last(rig).act
    assert (act.happened.at_ms, act.unsure_ms) == (rig.now_ms, 0)
    assert rig.window.shell.pad_strip.isHidden()


def test_what_puts_a_mistake_right_happens_now(rig: Rig) -> None:
    rig.keys("Ctrl+G")
    rig.type("10:20")
    rig.type("")
    _pallet(rig)
    rig.keys("Ctrl+Shift+U")
    assert _last(rig).reverses == _last(rig).id - 2, "the pallet, whose tag was printed since"
    assert _last(rig).act.happened.at_ms == rig.now_ms


@pytest.mark.parametrize("text", ["soon", "23:55", ""])
def test_what_is_no_time_is_said_and_asked_again(rig: Rig, text: str) -> None:
    rig.keys("Ctrl+G")
    rig.type(text)
    rig.type("")
    strip = rig.window.shell.pad_strip
    assert strip.is_asking()
    assert strip.words.text()
    assert rig.desk.pad is None
    rig.keys("Esc")
    assert strip.isHidden()
    assert rig.focused() == "Yard: scan its pull sheet"


def test_a_load_from_the_pad_widens_reach_on_the_floor(qtbot: QtBot, tmp_path: Path) -> None:
    """Any station's form: a pallet scanned from the pad goes in at the pad's time."""
    rig = Rig(qtbot, tmp_path)
    floor = Floor(rig)
    floor.open_run()
    floor.wait(300)
    rig.told(Receive((Line(floor.yard, 3),)))
    rig.keys("Ctrl+G")
    rig.type("09:10")
    rig.type("")
    rig.scan(floor.tag)
    entry = floor.last()
    assert (entry.kind, entry.act.unsure_ms) == ("load", 30 * MINUTE_MS)
    assert entry.act.happened.at_ms == START_MS + 30 * MINUTE_MS
    rig.close()
