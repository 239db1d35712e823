"""What was just recorded is taken back; where others are built on it, they are shown."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import recorded
from honeyledger.desktop.taking_back import ChainMeant
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig, entries_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    made.told(Register("yard", {"name": "Mill Lane"}))
    made.told(Register("vessel", {"name": "Tank 1"}))
    yield made
    made.close()


def test_an_entry_that_nothing_is_built_on(rig: Rig) -> None:
    received = rig.told(Receive((Line("Mill Lane", 12),))).entries[0].id
    rig.window.taking_back.reverse(received)
    rig.settle()
    assert rig.toast().lead == f"Entry {received} is reversed by entry {received + 1}."
    assert rig.toast().mark is Mark.REVERSED


def test_a_chain_is_offered_to_be_seen(rig: Rig) -> None:
    done = rig.told(Receive((Line("Mill Lane", 12),)))
    tag = next(code for code in done.given if code[0] == "G")
    rig.told(Load(tag, "Tank 1"))
    received = done.entries[0].id
    rig.window.taking_back.reverse(received)
    rig.settle()
    message = rig.toast()
    assert message.sentence == f"Not reversed. Others are built on entry {received}."
    assert (message.action, message.about) == ("Show them", ChainMeant(received))
    rig.window.toast.act()
    rig.settle()
    assert rig.window.shell.open_key() == "entries"
    shown = entries_of(rig).undoing.table.model.rows()
    assert [row.entry for row in shown] == [received + 1, received]


def test_what_was_recorded_in_one_go_goes_in_one_go_or_not_at_all(rig: Rig) -> None:
    first, second = (rig.told(Receive((Line("Mill Lane", 12),))) for _ in range(2))
    numbers = first.entries[0].id, second.entries[0].id
    rig.window.toast.show_message(recorded("2 are in.", numbers))
    rig.window.toast.act()
    rig.settle()
    last = numbers[1]
    assert rig.toast().lead == (
        f"Entries {numbers[0]} to {last} are reversed, the last by entry {last + 2}."
    )
    first, second = (rig.told(Receive((Line("Mill Lane", 12),))) for _ in range(2))
    tag = next(code for code in first.given if code[0] == "G")
    rig.told(Load(tag, "Tank 1"))
    before = rig.head()
    rig.window.taking_back.reverse(first.entries[0].id, second.entries[0].id)
    rig.settle()
    assert rig.head() == before
    assert rig.toast().about == ChainMeant(first.entries[0].id)


def test_any_other_refusal_is_said_as_it_is(rig: Rig) -> None:
    rig.window.taking_back.reverse(999)
    rig.settle()
    assert rig.toast().text == "There is no entry 999. Look it up in the lot's history."
    assert rig.toast().action == ""
