"""With the guards dropped, whatever a plain client changes is named by entry and table."""

from collections.abc import Iterable
from functools import partial

import pytest

from honeyledger.persistence import beside
from honeyledger.persistence.engine import locate
from honeyledger.persistence.short import short
from honeyledger.persistence.store import SqlStore
from tests.support.engines import Client, drop_guards
from tests.support.entries import write_season


@pytest.fixture
def tamper(shared: SqlStore, client: Client, url: str) -> Client:
    """A plain client of a written house whose guards are gone."""
    write_season(shared)
    drop_guards(url)
    if locate(url).is_sqlite:
        return client
    # Foreign keys are guards of PostgreSQL's own; a replica does without them.
    return partial(client, "SET session_replication_role = replica")


def broken(store: SqlStore, *, in_two: bool = True, **more: object) -> dict[str, tuple[str, ...]]:
    """What an audit says of each invariant: the same in one process and in two."""
    here = store.audit(**more)  # type: ignore[arg-type]
    if in_two:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(beside, "FROM_ENTRIES", 0)
            patch.setattr(beside, "CORES", 2)
            assert store.audit(**more) == here  # type: ignore[arg-type]
    assert all(finding.holds == (not finding.broken) for finding in here)
    return {finding.name: finding.broken for finding in here}


def is_first_of_its_kind(change: str, changes: Iterable[str]) -> bool:
    """Of rows changed, taken out and put in: of others two processes are for the long suites."""
    kind = change.partition(" ")[0]
    return change == next(one for one in changes if one.startswith(kind))


def test_a_sound_house_holds_in_all(store: SqlStore) -> None:
    write_season(store)
    assert [(one.name, one.holds, one.broken) for one in store.audit()] == [
        (name, True, ())
        for name in (
            *("balanced", "never-overdrawn", "whole", "ordered", "written-once", "chained"),
            *("rebuilt", "held-means-held", "dry-keeps-solids"),
        )
    ]


CHANGES = {
    "UPDATE entry SET facts = replace(facts, 'Größe', 'Grösse') WHERE id = 4": "entry 4, entry:",
    "UPDATE entry SET operator = 'O26-0009-X' WHERE id = 4": "entry 4, entry:",
    "UPDATE entry SET happened_ms = happened_ms + 1 WHERE id = 10": "entry 10, entry:",
    "UPDATE entry SET postings_digest = lots_digest WHERE id = 4": "entry 4, entry:",
    "UPDATE entry SET digest = facts_digest WHERE id = 4": "entry 4, entry:",
    "UPDATE lot SET made_g = made_g + 1 WHERE id = 3": "entry 4, lot:",
    "UPDATE lot SET attributes = '{}' WHERE id = 1": "entry 2, lot:",
    "UPDATE lot SET made_by = 4 WHERE id = 1": "entry 2, lot:",
    "UPDATE posting SET grams = grams - 1 WHERE entry = 4 AND line = 4": "entry 4, posting:",
    "UPDATE posting SET place = 'vessel/E26-0009-Z' WHERE entry = 4 AND line = 4": (
        "entry 4, posting:"
    ),
    "UPDATE origin SET grams = grams - 1 WHERE entry = 4 AND line = 1": "entry 4, origin:",
    "UPDATE origin SET late = 0 WHERE entry = 5": "entry 5, origin:",
    "DELETE FROM entry WHERE id = 6": "entry 6, entry:",
    "DELETE FROM lot WHERE id = 2": "entry 2, lot:",
    "DELETE FROM posting WHERE entry = 4 AND line = 7": "entry 4, posting:",
    "DELETE FROM origin WHERE entry = 4 AND line = 2": "entry 4, origin:",
    "INSERT INTO lot VALUES (9, 'D26-0009-X', 'D', 4, 5, 2026, '{}')": "entry 4, lot:",
    "INSERT INTO lot VALUES (9, 'D26-0009-X', 'D', 44, 5, 2026, '{}')": "entry 44, lot:",
    "INSERT INTO posting VALUES (4, 8, 1, 'difference', 5)": "entry 4, posting:",
    "INSERT INTO posting VALUES (11, 1, 1, 'difference', 5)": "entry 11, posting:",
    "INSERT INTO posting VALUES (0, 1, 1, 'difference', 5)": "entry 0, posting:",
    "INSERT INTO origin VALUES (12, 1, 4, 1, 0, 0)": "entry 12, origin:",
    "INSERT INTO origin VALUES (4, 3, 4, 1, 0, 0)": "entry 4, origin:",
    "INSERT INTO entry SELECT 11, kind, happened_ms, offset_min, zone, recorded_ms, operator,"
    " station, 'more', part, run, unsure_ms, reverses, facts, digest, facts_digest, lots_digest,"
    " postings_digest, origins_digest, digest FROM entry WHERE id = 10": "entry 11, entry:",
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_changed_row_is_named_by_entry_and_table(
    shared: SqlStore, tamper: Client, change: str
) -> None:
    tamper(change)
    named = broken(shared, in_two=is_first_of_its_kind(change, CHANGES))["chained"]
    assert any(line.startswith(CHANGES[change]) for line in named), named


def test_what_a_change_breaks_is_named_under_each_invariant(
    shared: SqlStore, tamper: Client
) -> None:
    tamper("UPDATE posting SET grams = grams - 36000 WHERE entry = 4 AND line = 4")
    named = broken(shared)
    assert named["balanced"] == ("entry 4, posting: out of balance by -36000 g",)
    assert named["never-overdrawn"] == (
        "entry 4, posting: lot 3 has -1000 g at vessel/E26-0001-V",
    )
    assert named["rebuilt"] == (
        "entry 4: it cannot be replayed (entry 4: entry 4 (fill) is out of balance by -36000 g)",
    )
    assert "guard posting_update_guard is not as installed" in named["written-once"]


def test_a_lot_that_is_not_whole_is_named(shared: SqlStore, tamper: Client) -> None:
    tamper("UPDATE lot SET made_g = 59999 WHERE id = 3")
    assert broken(shared)["whole"] == ("entry 4, lot: T26-0001-T is made of 60000 g, not 59999 g",)


def test_an_origin_out_of_order_is_named(shared: SqlStore, tamper: Client, url: str) -> None:
    if locate(url).is_sqlite:
        change = ("PRAGMA ignore_check_constraints = ON",)
    else:
        change = ("ALTER TABLE origin DROP CONSTRAINT origin_ordered",)
    tamper(*change, "UPDATE origin SET child = 1, parent = 3 WHERE entry = 4 AND line = 1")
    assert broken(shared)["ordered"] == ("entry 4, origin: line 1 is out of order",)


def test_a_cut_tail_is_found_by_a_head_kept_elsewhere(shared: SqlStore, tamper: Client) -> None:
    with shared.reading() as view:
        head = view.head()
    kept = [(head.entry, head.digest[:12].upper())]
    assert broken(shared, kept=kept)["chained"] == ()
    tamper(
        "DELETE FROM posting WHERE entry = 10",
        "UPDATE stay SET early_ms = 0, latest_ms = 9223372036854775807, ended_by = 0, told = 4"
        " WHERE ended_by = 10",
        f"INSERT INTO holding SELECT '{short('drum/E26-0002-W')}', lot, 0, 25000, 0 FROM holding"
        f" WHERE place = '{short('customer/C1')}'",
        f"DELETE FROM holding WHERE place = '{short('customer/C1')}'",
        "DELETE FROM entry WHERE id = 10",
        "UPDATE head SET entry = 9, digest = (SELECT digest FROM entry WHERE id = 9)",
    )
    # A clean cut leaves a sound house, only an older one.
    named = broken(shared)
    assert named["chained"] == ()
    assert named["rebuilt"] == ()
    assert broken(shared, kept=kept)["chained"] == (
        f"entry 10, entry: it is missing, though its digest was kept elsewhere "
        f"({head.digest[:12]})",
    )


def test_a_rewritten_chain_is_found_by_a_head_kept_elsewhere(
    shared: SqlStore, tamper: Client
) -> None:
    assert broken(shared, kept=[(4, "00000000")])["chained"] == (
        "entry 4, entry: its digest is not the one kept elsewhere (00000000)",
    )


def test_a_head_that_is_not_the_last_entry_is_named(shared: SqlStore, tamper: Client) -> None:
    tamper("UPDATE head SET entry = 12")
    assert broken(shared)["chained"][0] == "entry 11 to entry 12, entry: their rows are missing"
    tamper("UPDATE head SET entry = 10, digest = (SELECT facts_digest FROM entry WHERE id = 9)")
    assert broken(shared)["chained"] == ("entry 10, head: the head's digest is another",)


PROJECTIONS = {
    "UPDATE holding SET grams = grams + 1 WHERE lot = 1 AND place = 'difference'": (
        "holding, lot 1, place difference: it says"
    ),
    "DELETE FROM holding WHERE lot = 1 AND place = 'difference'": (
        "holding, lot 1, place difference: it is missing"
    ),
    "INSERT INTO holding VALUES ('zoo', 1, 2, 0, 0)": (
        "holding, lot 1, place zoo: it should not be there"
    ),
    "UPDATE stay SET since_ms = 5 WHERE lot = 3": (
        "stay, place vessel/E26-0001-V, latest_ms 9223372036854775807, lot 3, entry 4: it says"
    ),
    "UPDATE stay SET told = told - 16 WHERE lot = 3": (
        "stay, place vessel/E26-0001-V, latest_ms 9223372036854775807, lot 3, entry 4: it says"
    ),
    "DELETE FROM arrived WHERE lot = 2": "arrived, place vessel/E26-0001-V, at_ms",
    "INSERT INTO drawn VALUES ('vessel/E26-0001-V', 5, 3, 4)": (
        "drawn, place vessel/E26-0001-V, at_ms 5, lot 3, entry 4: it should not be there"
    ),
    "INSERT INTO touched VALUES ('drum/E26-0002-W', 4, 5)": (
        "touched, place drum/E26-0002-W, at_ms 5, entry 4: it should not be there"
    ),
    "UPDATE mark SET value = '\"South\"' WHERE name = 'record'": (
        "mark, subject yard/Y26-0001-K, name record, entry 1: it says"
    ),
    "DELETE FROM void_origin": "void_origin, entry 5, line 1, by_entry 9: it is missing",
    "DELETE FROM reversal": "reversal, entry 7: it is missing",
    "DELETE FROM last_number WHERE letter = 'D'": (
        "last_number, letter D, season 26: it is missing"
    ),
    "INSERT INTO code_given VALUES ('D26-0001-D', 3)": (
        "code_given, code D26-0001-D: it should not be there"
    ),
}


@pytest.mark.parametrize("change", PROJECTIONS)
def test_a_changed_projection_is_found_by_replay(
    shared: SqlStore, client: Client, change: str
) -> None:
    write_season(shared)
    client(change)
    named = broken(shared, in_two=is_first_of_its_kind(change, PROJECTIONS))
    assert named["rebuilt"][0].startswith(PROJECTIONS[change]), named["rebuilt"]
    assert named["chained"] == ()


@pytest.mark.full
@pytest.mark.parametrize("change", [*CHANGES, *PROJECTIONS])
def test_two_processes_find_what_one_does(shared: SqlStore, tamper: Client, change: str) -> None:
    tamper(change)
    assert any(broken(shared).values())


def test_facts_that_cannot_be_read_are_named_and_the_audit_goes_on(
    shared: SqlStore, tamper: Client
) -> None:
    tamper("UPDATE entry SET facts = 'x' WHERE id = 4")
    named = broken(shared)
    assert named["rebuilt"][0].startswith("entry 4: it cannot be replayed")
    assert named["chained"] == ("entry 4, entry: its facts are not what was sealed",)
    tamper('UPDATE entry SET facts = \'{"effects":{"came":[[1]]}}\' WHERE id = 4')
    assert broken(shared)["rebuilt"][0].startswith("entry 4: it cannot be replayed")


def test_all_places_together_are_nothing(shared: SqlStore, client: Client) -> None:
    write_season(shared)
    client("UPDATE holding SET grams = grams + 7 WHERE lot = 1 AND place = 'difference'")
    assert broken(shared)["balanced"] == ("holding: all places together are +7 g, not 0 g",)
