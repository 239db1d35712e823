"""The owner's work on the house itself, each recorded as an entry."""

import sqlite3
from contextlib import closing

from tests.support.terminal import Terminal


def test_guards_that_were_dropped_are_put_back(terminal: Terminal) -> None:
    with closing(sqlite3.connect(terminal.file)) as client:
        (name,) = client.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        ).fetchone()
        client.execute(f"DROP TRIGGER {name}")
        client.commit()
    said = terminal.refused("receive", "Mill Lane", "24")
    assert name in said
    answer = terminal.json("upkeep", "guards", "--operator", "the owner")
    assert answer["missing"] == [name]
    assert answer["entry"] == terminal.head()[0]
    terminal.do("receive", "Mill Lane", "24")
    assert "none was missing" in terminal.do("upkeep", "guards")


def test_what_is_computed_is_made_anew(terminal: Terminal) -> None:
    terminal.pallet()
    with closing(sqlite3.connect(terminal.file)) as client:
        client.execute("UPDATE holding SET grams = grams + 1 WHERE place LIKE 'pallet/%'")
        client.commit()
    assert terminal.type("audit").code == 1
    entries = terminal.head()[0]
    assert terminal.do("upkeep", "rebuild") == f"{entries} entries were replayed.\n"
    assert terminal.type("audit").code == 0


def test_a_house_of_today_needs_no_upgrade(terminal: Terminal) -> None:
    assert str(terminal.file) in terminal.refused("upkeep", "upgrade")
