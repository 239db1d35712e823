"""The house: one command is written once, whole or not at all; questions change nothing."""

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Recorded, Said, given_codes, notes_of
from honeyledger.services.store import Head
from tests.support.books import code_in, standing
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    return house


def _head(house: BuiltHouse) -> Head:
    return house.house.ask(lambda view: view.head())


def test_a_command_is_one_entry_with_who_when_and_where(house: BuiltHouse) -> None:
    said = Said("O26-0001-X", "dock desk", "command-a", run="", unsure_ms=60_000)
    done = house.house.record(Receive((Line("Creek", 10, sheet=11),)), said)
    (entry,) = done.entries
    assert (entry.act.operator, entry.act.station, entry.act.command) == (
        "O26-0001-X",
        "dock desk",
        "command-a",
    )
    assert entry.act.happened == moment_at(house.now_ms, "UTC")
    assert (entry.act.unsure_ms, entry.recorded_ms) == (60_000, house.now_ms)
    assert _head(house).digest == done.seals[0].digest
    assert done.codes == tuple(lot.code for lot in entry.lots)
    assert sorted(code[0] for code in done.given) == ["G", "S"]
    assert given_codes(entry) == list(done.given)
    assert notes_of(entry) == [("count-differs", done.notes[0])]
    assert not done.again


def test_a_retry_writes_once_and_answers_the_same(house: BuiltHouse) -> None:
    facts, said = Receive((Line("Creek", 10),)), Said(command="command-a")
    first = house.house.record(facts, said)
    head = _head(house)
    house.wait(5)
    again = house.house.record(facts, said)
    assert again.again
    assert (again.entries, again.given) == (first.entries, first.given)
    assert _head(house) == head


def test_an_id_used_before_for_something_else_is_refused(house: BuiltHouse) -> None:
    """The new facts would be lost, and the person told that they were recorded before."""
    said = Said(command="command-a")
    _, tag = house.pull("Creek", 300_000)
    first = house.house.record(Receive((Line("Creek", 10),)), said).entries[0]
    text = (
        f"The id command-a was used before, with entry {first.id}, for something else. Nothing "
        "was written: give this command an id of its own."
    )
    head = _head(house)
    others = [Receive((Line("Creek", 11),)), Load(tag, "Tank 1")]
    for facts in others:
        assert refused(lambda facts=facts: house.house.record(facts, said)) == text
    both = [Receive((Line("Creek", 10),)), others[1]]
    assert refused(lambda: house.house.record_all(both, said)) == text
    assert refused(lambda: house.house.reverse_chain(first.id, "never came", said)) == text
    assert _head(house) == head


def test_without_an_id_each_command_is_a_new_one(house: BuiltHouse) -> None:
    facts = Receive((Line("Creek", 10),))
    commands = {house.house.record(facts).entries[0].act.command for _ in range(2)}
    assert len(commands) == 2


def test_parts_see_one_another_and_are_written_together(house: BuiltHouse) -> None:
    """A pallet received and loaded in one command: the second part needs the first."""
    tag = _next_tag(house)
    done = house.house.record_all([Receive((Line("Creek", 10),)), Load(tag, "Tank 1")])
    assert [entry.part for entry in done.entries] == [0, 1]
    assert len({entry.act.command for entry in done.entries}) == 1
    assert sum(standing(house, "Tank 1").values()) == 148_000
    parts = [Receive((Line("Creek", 10),)), Load(tag, "Tank 1")]
    again = house.house.record_all(parts, Said(command=done.entries[0].act.command))
    assert again.entries == done.entries


def _next_tag(house: BuiltHouse) -> str:
    entry = house.house.preview(Receive((Line("Creek", 10),)))
    return code_in(Recorded((entry,), ()), "G")


def test_where_one_part_is_refused_none_is_written(house: BuiltHouse) -> None:
    head = _head(house)
    parts = [Receive((Line("Creek", 10),)), Receive((Line("Moor", 10),))]
    said = Said(command="command-a")
    assert refused(lambda: house.house.record_all(parts, said)) == (
        "There is no yard called Moor. Choose one, such as Creek, or register it first."
    )
    assert _head(house) == head
    done = house.house.record(parts[0], said)  # the id was not used up
    assert not done.again
    assert code_in(done, "G") == _first_tag()


def _first_tag() -> str:
    house = BuiltHouse()
    house.yard("Creek")
    return house.pull("Creek", 100_000)[1]


def test_each_part_can_have_its_own_time(house: BuiltHouse) -> None:
    times = [moment_at(START_MS - minutes * MINUTE_MS, "UTC") for minutes in (30, 10)]
    facts = [Receive((Line("Creek", 10),)), Receive((Line("Creek", 5),))]
    done = house.house.record_all(facts, Said(), times)
    assert [entry.act.happened for entry in done.entries] == times
    late = [times[0], moment_at(house.now_ms + 11 * MINUTE_MS, "UTC")]
    head = _head(house)
    with pytest.raises(Refusal):
        house.house.record_all(facts, Said(), late)
    assert _head(house) == head


def test_nothing_is_recorded_before_it_happens(house: BuiltHouse) -> None:
    """Ten minutes ahead are a clock that is fast; more is a slip."""
    facts = Receive((Line("Creek", 10),))
    soon = moment_at(house.now_ms + 10 * MINUTE_MS, "UTC")
    house.house.record(facts, Said(happened=soon))
    head = _head(house)
    later = moment_at(house.now_ms + 10 * MINUTE_MS + 1, "UTC")
    for action in (house.house.record, house.house.preview):
        said = refused(lambda action=action: action(facts, Said(happened=later)))
        assert said == (
            "24 Jul 2026 08:54 is in the future, for it is now 24 Jul 2026 08:44: type when it "
            "happened."
        )
    assert _head(house) == head


def test_a_year_that_was_mistyped_is_refused(house: BuiltHouse) -> None:
    facts = Receive((Line("Creek", 10),))
    old = moment_at(house.now_ms - 5 * 366 * 86_400_000 - 1, "UTC")
    text = (
        "20 Jul 2021 08:43 is more than 5 years ago, for it is now 24 Jul 2026 08:44: check the "
        "year."
    )
    assert refused(lambda: house.house.record(facts, Said(happened=old))) == text
    assert refused(lambda: house.house.record_all([facts], Said(), [old])) == text
    house.house.record(facts, Said(happened=moment_at(old.at_ms + 1, "UTC")))


def test_a_time_is_known_to_a_week(house: BuiltHouse) -> None:
    facts, day_ms = Receive((Line("Creek", 10),)), 86_400_000
    assert refused(lambda: house.house.record(facts, Said(unsure_ms=8 * day_ms))) == (
        "A time that may be off by 8 days says too little: 7 days is the most. Look it up."
    )
    house.house.record(facts, Said(unsure_ms=7 * day_ms))


def test_a_preview_shows_the_entry_and_writes_nothing(house: BuiltHouse) -> None:
    house.load("Creek", 240_000, "Tank 1")
    head = _head(house)
    facts = Fill("Tank 1", Weight(net_g=300_000))
    shown = house.house.preview(facts, Said(command="command-a"))
    assert notes_of(shown)[0][0] == "more-than-the-books"
    assert _head(house) == head
    done = house.house.record(facts, Said(command="command-a"))
    assert done.entries == (shown,)


def test_a_chain_is_shown_and_then_reversed_as_one_command(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    receipt = _head(house).entry
    house.do(Load(tag, "Tank 1"))
    house.drum("Tank 1", 100_000)
    assert [entry.kind for entry in house.house.chain(receipt)] == ["fill", "load", "receive"]
    said = Said(command="command-a")
    done = house.house.reverse_chain(receipt, "never came", said)
    assert [entry.facts["said"] for entry in done.entries] == [
        {"entry": receipt + back, "reason": "never came"} for back in (2, 1, 0)
    ]
    again = house.house.reverse_chain(receipt, "never came", said)
    assert (again.again, again.entries) == (True, done.entries)
    assert house.house.chain(999) == []


def test_a_chain_that_grew_since_it_was_shown_is_not_reversed(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    receipt = _head(house).entry
    house.do(Load(tag, "Tank 1"))
    seen = [entry.id for entry in house.house.chain(receipt)]
    house.drum("Tank 1", 100_000)
    head = _head(house)
    assert refused(lambda: house.house.reverse_chain(receipt, "never came", seen=seen)) == (
        f"What is built on entry {receipt} has changed meanwhile. Look at the list again, then "
        "reverse."
    )
    assert _head(house) == head
    seen = [entry.id for entry in house.house.chain(receipt)]
    assert len(house.house.reverse_chain(receipt, "never came", seen=seen).entries) == 3


def test_where_one_of_a_chain_cannot_be_reversed_none_is(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 300_000)
    receipt = _head(house).entry
    house.do(Load(tag, "Tank 1"))
    head = _head(house)
    assert refused(lambda: house.house.reverse_chain(receipt, " ")) == (
        "Give the reason in a word or two."
    )
    assert refused(lambda: house.house.reverse_chain(999, "x")) == (
        "There is no entry 999. Look it up in the lot's history."
    )
    assert _head(house) == head
    house.do(Reverse(head.entry, "wrong tank"))


def test_the_houses_own_clock_and_zone(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "zone": "America/Regina"}))
    entry = house.do(Receive((Line("Creek", 10),))).entries[0]
    assert (entry.act.happened.zone, entry.act.happened.offset_min) == ("America/Regina", -360)
