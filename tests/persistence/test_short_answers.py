"""What is stored in short forms is asked for, answered and put in order in written-out words."""

from honeyledger.domain.codes import next_code
from honeyledger.persistence.short import short
from honeyledger.persistence.store import SqlStore
from tests.support.engines import Client
from tests.support.entries import Hand, write_season

NUMBERS = (1, 2, 9, 12, 100, 1_000, 10_002)
"""Of which 12 comes before 2 as stored, and after it as written."""


def _codes(letter: str, prefix: str = "", season: int = 28) -> list[str]:
    return sorted({str(next_code(letter, season, number, prefix)) for number in NUMBERS})


def _told(hand: Hand, places: list[str]) -> None:
    """One lot, some of it in each of the places."""
    given = [("S28-0001-S", place, 1_000) for place in places]
    hand.write(
        "receive",
        [("S28-0001-S", 10_000)],
        [*given, ("S28-0001-S", "difference", -1_000 * len(given))],
    )


def test_places_come_in_the_order_of_their_words(store: SqlStore) -> None:
    drums = [f"drum/{code}" for code in _codes("D")]
    assert sorted(drums, key=short) != drums
    others = ["customer/C1", "room/1", "vessel/E28-0001-E"]
    _told(Hand(store), [*reversed(drums), *others])
    with store.reading() as view:
        assert [row.place for row in view.held_at("drum")] == drums
        assert [row.place for row in view.on_hand(["drum"])] == drums
        assert [row.place for row in view.on_hand()] == [*drums, *others[1:]]
        every = sorted([*drums, *others, "difference"])
        assert [row.place for row in view.holdings(1)] == every
        assert [row.place for row in view.holdings_of([1])] == every
        assert [row.place for row in view.held_at("room")] == ["room/1"]
        assert [row.place for row in view.held_at("customer")] == ["customer/C1"]


def test_places_that_look_like_stored_ones_stay_apart(store: SqlStore) -> None:
    places = ["d", "d/1", "dD281", "drum", "drum/1", "drums", "vessel/dD281"]
    _told(Hand(store), places)
    with store.reading() as view:
        assert [row.place for row in view.held_at("drum")] == ["drum", "drum/1"]
        assert [row.place for row in view.holdings(1)] == sorted([*places, "difference"])


def test_source_places_come_in_the_order_of_their_words(store: SqlStore) -> None:
    yards = [f"yard/{code}" for code in _codes("Y")]
    given = [("S28-0001-S", yard, -1_000) for yard in reversed(yards)]
    hand = Hand(store)
    hand.write(
        "receive",
        [("S28-0001-S", 7_000)],
        [*given, ("S28-0001-S", "pallet/G", 1_000 * len(given))],
    )
    with store.reading() as view:
        assert [row.place for row in view.sources_of([1])] == yards
        assert [place for place, *_ in view.sourced_heads([1])[1]] == yards
        assert [lot.id for lot in view.source_lots(yards[0])] == [1]


def test_marks_come_in_the_order_of_their_words(store: SqlStore) -> None:
    hand, lot = Hand(store), _codes("J")[0]
    notes = [f"note/{code}" for code in _codes("N")]
    hand.write("dispatch", marks=[[lot, note, {"grams": 5, "jars": 1}] for note in notes])
    hand.write("tell", marks=[[lot, "n/1", 1], [lot, "moisture", 1_780]])
    with store.reading() as view:
        names = sorted([*notes, "n/1", "moisture"])
        assert [mark.name for mark in view.marks(lot)] == names
        view.read_marks([lot])
        assert [mark.name for mark in view.marks(lot)] == names
    with store.reading() as view:
        mark = view.mark(lot, notes[0])
        assert mark is not None
        assert (mark.subject, mark.name, mark.value) == (lot, notes[0], {"grams": 5, "jars": 1})


def test_subjects_are_found_by_any_beginning(store: SqlStore) -> None:
    runs = [f"run/{code}" for code in _codes("R")]
    ours = [f"run/{code}" for code in _codes("R", "KB")]
    older = [f"run/{code}" for code in _codes("R", season=27)]
    others = ["run/none", "run/R28-none", "run/KB-R28-1", "rR281", "r/R28-1", "runs/R28-1", "run"]
    subjects = sorted([*runs, *ours, *older, *others])
    hand = Hand(store)
    hand.write("open", marks=[[subject, "opened", 1] for subject in reversed(subjects)])
    hand.write("close", marks=[[subject, "closed", 1] for subject in subjects[::2]])
    beginnings = ["run/", "run/R28-", "run/KB-R28-", "run/R28-000", "run/K", "ru", "r/", "rR"]
    with store.reading() as view:
        assert [mark.subject for mark in view.marked("opened")] == subjects
        for under in beginnings:
            found = [subject for subject in subjects if subject.startswith(under)]
            assert [mark.subject for mark in view.marked("opened", under)] == found, under
            open_yet = [subject for subject in found if subject in subjects[1::2]]
            begun = view.marked_without("opened", "closed", under)
            assert [mark.subject for mark in begun] == open_yet, under
        assert list(view.marked_on("opened", [runs[1], "run/x", "rR281"])) == ["rR281", runs[1]]


def test_codes_given_are_known_and_told_as_printed(store: SqlStore) -> None:
    codes = _codes("N")
    entry = Hand(store).write("give", codes=[[code] for code in reversed(codes)])
    with store.reading() as view:
        assert view.codes_given([entry.id]) == {entry.id: codes}
        assert all(view.is_given(code) for code in codes)
        assert not view.is_given(short(codes[0]))


def test_an_amendment_of_a_lot_builds_on_what_made_it(store: SqlStore) -> None:
    hand, (lot, other, *_) = Hand(store), _codes("S")
    made = hand.write("receive", [(lot, 5)], [(lot, "difference", -5), (lot, "drum/1", 5)])
    hand.write("tell", marks=[[other, "amended", 1], [short(lot), "amended", 1]])
    amended = hand.write("amend", marks=[[lot, "amended", 1]])
    with store.reading() as view:
        assert view.built_on(made.id) == [amended.id]
        assert [entry.id for entry in view.history(hand.lot(lot))] == [made.id, amended.id]


def test_an_audit_names_rows_in_words(shared: SqlStore, client: Client) -> None:
    hand, (lot, *_) = write_season(shared), _codes("J")
    note, place = f"note/{_codes('N')[1]}", f"pallet/{_codes('G')[0]}"
    hand.write(
        "send",
        marks=[[lot, note, {"grams": 9_000, "jars": 3}]],
        touched=[[place]],
        codes=[[_codes("N")[1]]],
    )
    client(
        "UPDATE mark SET value = '2' WHERE entry = 11",
        f"DELETE FROM touched WHERE place = '{short(place)}'",
        "DELETE FROM code_given WHERE entry = 11",
    )
    (lines,) = [finding.broken for finding in shared.audit() if finding.name == "rebuilt"]
    with shared.reading() as view:
        entry = view.entry(11)
    assert entry is not None
    at_ms = entry.act.happened.at_ms
    assert lines == (
        f"touched, place {place}, at_ms {at_ms}, entry 11: it is missing",
        f"mark, subject {lot}, name {note}, entry 11: it says ({at_ms}, '2'), a replay says"
        f' ({at_ms}, \'{{"grams":9000,"jars":3}}\')',
        f"code_given, code {_codes('N')[1]}: it is missing",
    )
