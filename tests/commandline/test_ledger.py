"""The house itself: made once, its entries, its audit, its backup."""

import pytest

from honeyledger import bootstrap
from tests.support.engines import as_plain_client, drop_guards
from tests.support.terminal import NOTHING, Terminal


def test_a_new_house_begins_with_its_record_and_three_boxes(bare: Terminal) -> None:
    done = bare.json("new", "--name", "Hill House", "--zone", "Europe/Berlin", "--prefix", "hb")
    assert done["house"] == bare.where
    assert done["entries"] == [1, 2, 3, 4]
    assert [row["name"] for row in bare.json("register", "box", "list")["boxes"]] == [
        *("deep", "medium", "shallow"),
    ]
    bare.do("register", "yard", "add", "Mill Lane")
    assert bare.json("register", "yard", "list")["yards"][0]["code"].startswith("HB-Y26-")
    assert bare.json("entries")["entries"][-1]["happened"] == "2026-07-24T10:41:00.000+02:00"


def test_a_house_is_never_made_over_another(terminal: Terminal) -> None:
    said = terminal.refused("new")
    assert said == (
        f"There is a house at {terminal.house_name} already. Open that one, or choose another "
        "name."
    )


def test_a_new_house_asks_for_a_zone_that_is(bare: Terminal) -> None:
    assert "Mars is not a time zone" in bare.refused("new", "--zone", "Mars")
    assert bare.head() == NOTHING


def test_where_no_house_is(bare: Terminal) -> None:
    done = bare.type("stock")
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith(f"There is no house at {bare.house_name}.")


def test_entries_are_shown_newest_first(terminal: Terminal) -> None:
    terminal.pallet()
    terminal.do("reverse", str(terminal.head()[0]), "--reason", "never came")
    rows = terminal.json("entries", "--last", "2")["entries"]
    assert [row["kind"] for row in rows] == ["reverse", "receive"]
    assert (rows[0]["reverses"], rows[1]["reversed_by"]) == (rows[1]["entry"], rows[0]["entry"])
    assert [row["kind"] for row in terminal.json("entries", "--kind", "receive")["entries"]] == [
        "receive"
    ]
    assert terminal.do("entries", "--kind", "bottle") == "There are no entries of that kind yet.\n"
    assert "is not a whole number" in terminal.refused("entries", "--last", "all")


def test_an_audit_that_holds(terminal: Terminal) -> None:
    answer = terminal.json("audit")
    assert list(answer) == ["invariants"]
    assert all(set(row) == {"name", "holds", "broken"} for row in answer["invariants"])
    assert all(row["holds"] and row["broken"] == [] for row in answer["invariants"])
    assert "invariants hold." in terminal.do("audit")


def test_an_audit_that_fails_ends_with_one_and_names_entry_and_table(terminal: Terminal) -> None:
    terminal.pallet()
    drop_guards(terminal.where)
    as_plain_client(terminal.where, "UPDATE posting SET grams = grams + 1 WHERE grams > 0")
    done = terminal.type("audit", "--json")
    assert done.code == 1
    assert '"holds": false' in done.out
    shown = terminal.type("audit")
    assert shown.code == 1
    assert "BROKEN  balanced" in shown.out
    entry = terminal.head()[0]
    assert f"entry {entry}, posting" in shown.out
    assert "Run the audit" in shown.err


def test_a_cut_tail_is_found_by_a_head_kept_elsewhere(terminal: Terminal) -> None:
    entry, digest = terminal.head()
    kept = f"{digest[:12]}:{entry}"
    assert terminal.type("audit", "--head", kept).code == 0
    assert terminal.type("audit", "--head", f"{digest[:12].upper()}…:{entry}").code == 0
    assert terminal.type("audit", "--head", f"{digest[:12]}:{entry + 1}").code == 1
    other = f"{'0' * 12}:{entry}"
    assert terminal.type("audit", "--head", other).code == 1
    assert terminal.refused("audit", "--head", "abc") == (
        "abc is no head: type the digest, at least its first 8 characters, a colon and the "
        "entry's number, such as 3f9a0c1d:214."
    )


@pytest.mark.sqlite("a house on a server is backed up there")
def test_a_backup_is_a_house(terminal: Terminal) -> None:
    copy = terminal.folder / "copy.honeyledger"
    answer = terminal.json("backup", str(copy))
    entry, digest = terminal.head()
    assert (answer["entry"], answer["digest"]) == (entry, digest)
    house = bootstrap.open_house(str(copy))
    assert house.ask(lambda view: view.head().digest) == digest
    house.store.close()
    assert f"{digest[:16]}:{entry}" in terminal.do("backup", str(copy))
    said = terminal.refused("backup", str(terminal.folder / "none" / "copy"))
    assert said.startswith("There is no folder")


@pytest.mark.sqlite("a server's house is in no folder")
def test_a_bad_place_for_a_house_is_told(bare: Terminal) -> None:
    synced = bare.folder / "Cloud sync" / ".stfolder"
    synced.mkdir(parents=True)
    done = bare.type("new", "--house", str(synced.parent / "house.honeyledger"))
    assert done.code == 0
    assert done.err.startswith("Note: ")


def test_a_register_s_entry_says_what_and_who(terminal: Terminal) -> None:
    said = terminal.do("register", "customer", "add", "Farm Shop")
    assert said.splitlines()[0] == f"Recorded as entry {terminal.head()[0]} (customer Farm Shop)."
    assert "  customer Farm Shop\n" in terminal.do("entries", "--last", "1")
    (row,) = terminal.json("entries", "--last", "1")["entries"]
    assert (row["kind"], row["what"]) == ("register", "customer Farm Shop")
