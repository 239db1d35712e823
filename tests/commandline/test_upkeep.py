"""The owner's work on the house itself, each recorded as an entry."""

from honeyledger.persistence.short import class_lies_between
from tests.support.engines import as_plain_client, drop_guards
from tests.support.terminal import Terminal


def test_guards_that_were_dropped_are_put_back(terminal: Terminal) -> None:
    name = "lot_delete_guard"
    drop_guards(terminal.where, name)
    said = terminal.refused("receive", "Mill Lane", "24")
    assert name in said
    answer = terminal.json("upkeep", "guards", "--operator", "the owner")
    assert answer["missing"] == [name]
    assert answer["entry"] == terminal.head()[0]
    terminal.do("receive", "Mill Lane", "24")
    assert "none was missing" in terminal.do("upkeep", "guards")


def test_what_is_computed_is_made_anew(terminal: Terminal) -> None:
    terminal.pallet()
    pallets = "place BETWEEN '{}' AND '{}'".format(*class_lies_between("pallet"))
    as_plain_client(terminal.where, f"UPDATE holding SET grams = grams + 1 WHERE {pallets}")
    assert terminal.type("audit").code == 1
    entries = terminal.head()[0]
    assert terminal.do("upkeep", "rebuild") == f"{entries} entries were replayed.\n"
    assert terminal.type("audit").code == 0


def test_a_house_of_today_needs_no_upgrade(terminal: Terminal) -> None:
    assert terminal.house_name in terminal.refused("upkeep", "upgrade")
