"""What a scan does to a note: added once, counted against the order, the oldest first."""

from honeyledger.desktop.stations.dispatch.picking import (
    Rest,
    Scanned,
    grams_of,
    older_left,
    pick,
    rests,
    span_of,
    with_asked,
    with_jars,
    with_net,
    with_rest_only,
    with_span,
)
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked, Wanted
from honeyledger.services.dispatching import OnShelf, Pick
from tests.desktop.stations.dispatch.pages import CASE, CLOVER, DRUM, NEW, OLD, PAGE


def test_a_drum_is_added_once() -> None:
    note, what = pick(NoteTyped(), Pick(DRUM), PAGE)
    assert what is Scanned.ADDED
    assert note.picked == (Picked(DRUM.code, "D"),)
    assert pick(note, Pick(DRUM), PAGE) == (note, Scanned.TWICE)


def test_jars_come_with_what_the_order_still_wants() -> None:
    free, _ = pick(NoteTyped(), Pick(OLD), PAGE)
    assert free.picked[0].jars == ""
    wants = NoteTyped().with_wanted(CLOVER, 130)
    note, _ = pick(wants, Pick(OLD), PAGE)
    assert note.picked[0].jars == "100", "all of the oldest"
    note, _ = pick(note, Pick(NEW), PAGE)
    assert note.picked[1].jars == "30"
    assert pick(note, Pick(NEW), PAGE) == (note, Scanned.TWICE)
    assert rests(note, PAGE) == (Rest(CLOVER, 130, 130),)


def test_jars_scanned_one_by_one_are_counted_and_none_twice() -> None:
    note, _ = pick(NoteTyped(), Pick(OLD, 38), PAGE)
    note, what = pick(note, Pick(OLD, 12), PAGE)
    assert what is Scanned.ANOTHER_JAR
    assert (note.picked[0].jars, note.picked[0].serials) == ("2", (38, 12))
    assert pick(note, Pick(OLD, 38), PAGE) == (note, Scanned.TWICE)
    assert span_of(note.picked[0]) == (12, 38, 27)
    spanned = with_span(note, OLD.code, True)
    assert spanned.picked[0].jars == "27"
    longer, _ = pick(spanned, Pick(OLD, 41), PAGE)
    assert longer.picked[0].jars == "30"
    assert with_span(longer, OLD.code, False).picked[0].jars == "3"


def test_a_number_typed_over_jars_scanned_is_what_counts() -> None:
    note, _ = pick(NoteTyped(), Pick(OLD, 38), PAGE)
    typed = with_jars(note, OLD.code, "50")
    assert (typed.picked[0].jars, typed.picked[0].serials) == ("50", ())
    assert pick(typed, Pick(OLD, 39), PAGE) == (typed, Scanned.COUNTED)
    assert with_jars(note, OLD.code, "1") is note, "the same number changes nothing"
    assert with_jars(note, "J26-0099-9", "1") is note
    assert with_span(note, OLD.code, True) is note, "one jar has no other end"


def test_only_a_part_of_a_drum() -> None:
    note, _ = pick(NoteTyped(), Pick(DRUM), PAGE)
    assert with_net(note, DRUM.code, "50").picked[0].net == "50"
    assert with_net(note, "D26-0099-9", "50") is note


def test_the_rest_of_an_order_is_a_note_of_its_own() -> None:
    note = with_asked(NoteTyped("Packer", "PO 7", "van"), [(CLOVER, 130), ("lots/D", 1)])
    note, _ = pick(note, Pick(DRUM), PAGE)
    note, _ = pick(note, Pick(OLD), PAGE)
    assert with_rest_only(note, PAGE) == NoteTyped("Packer", "PO 7", "", (Wanted(CLOVER, 30),))


def test_older_jars_that_stay_behind_are_told() -> None:
    new = NoteTyped(picked=(Picked(NEW.code, "J", jars="10"),))
    assert older_left(new, NEW.code, PAGE) == (OLD,)
    half = new.with_picked(Picked(OLD.code, "J", jars="99"))
    assert older_left(half, NEW.code, PAGE) == (OLD,)
    whole = new.with_picked(Picked(OLD.code, "J", jars="100"))
    assert older_left(whole, NEW.code, PAGE) == ()
    assert older_left(new, OLD.code, PAGE) == ()
    drum = NoteTyped(picked=(Picked(DRUM.code, "D"),))
    assert older_left(drum, DRUM.code, PAGE) == (), "drums are chosen by what is in them"
    assert older_left(new, NEW.code, None) == ()


def test_a_pick_weighs_its_part() -> None:
    assert grams_of(Picked(OLD.code, "J", jars="40"), OLD, None) == 20_000
    assert grams_of(Picked(OLD.code, "J", jars="1000"), OLD, None) == 50_000
    assert grams_of(Picked(OLD.code, "J", jars="?"), OLD, None) == 0
    assert grams_of(Picked(DRUM.code, "D"), DRUM, None) == 280_000
    assert grams_of(Picked(DRUM.code, "D", net="50"), DRUM, 50_000) == 50_000
    none = OnShelf("J26-0001-L", "J", CLOVER, "", 0, 500, None, 0)
    assert grams_of(Picked(none.code, "J", jars="1"), none, None) == 0


def test_a_case_goes_whole_and_counts_for_what_is_in_it() -> None:
    note, what = pick(NoteTyped().with_wanted(CLOVER, 30), Pick(CASE), PAGE)
    assert what is Scanned.ADDED
    assert note.picked == (Picked(CASE.code, "C"),)
    assert rests(note, PAGE) == (Rest(CLOVER, 30, 12),)
    assert pick(note, Pick(CASE), PAGE) == (note, Scanned.TWICE)
    assert grams_of(note.picked[0], CASE, None) == 6_000
    assert older_left(note, CASE.code, PAGE) == ()


def test_pieces_of_comb_are_all_there_are_until_fewer_are_said() -> None:
    comb = OnShelf("K26-0001-A", "K", "lots/K", "", 40, 8_000, None, 0)
    note, _ = pick(NoteTyped(), Pick(comb), PAGE)
    assert note.picked[0].jars == "40"
    assert grams_of(with_jars(note, comb.code, "10").picked[0], comb, None) == 2_000
    by_weight = OnShelf("K26-0001-A", "K", "lots/K", "", 0, 8_000, None, 0)
    note, _ = pick(NoteTyped(), Pick(by_weight), PAGE)
    assert note.picked[0].jars == ""
    assert grams_of(note.picked[0], by_weight, None) == 8_000
