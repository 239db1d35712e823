"""Which entries are listed, what goes with a reversal, and what is amended instead."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.opening import FoundDrum
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.journal import Amendable, Undoing, Wanted, entry_rows, undoing
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


class Season:
    """A pull that was loaded, a drum filled, jars bottled from another tank, some sent."""

    def __init__(self) -> None:
        self.house = BuiltHouse()
        self.yard = self.house.yard("Creek")
        self.tank = self.house.vessel("Tank 1")
        self.pull, self.tag = self.house.pull("Creek", 300_000, station="dock")
        self.received = self._head()
        self.house.load("Creek", 200_000, self.tank)
        self.drum = self.house.drum("Tank 1", 150_000)
        self.filled = self._head()
        self.house.do(Measure(self.drum, colour=340), station="bench")

    def _head(self) -> int:
        return self.house.house.ask(lambda view: view.head().entry)

    def ids(self, **wanted: object) -> list[int]:
        """The numbers of the entries wanted, newest first."""
        asked = Wanted(**wanted)  # type: ignore[arg-type]
        return [row.entry for row in self.house.house.ask(lambda view: entry_rows(view, asked))]

    def undoing(self, entry: int) -> Undoing:
        return self.house.house.ask(lambda view: undoing(view, entry))


@pytest.fixture
def season() -> Season:
    return Season()


def test_the_newest_come_first_so_many_of_them(season: Season) -> None:
    head = season.ids()[0]
    assert season.ids() == list(range(head, 0, -1))
    assert season.ids(count=2) == [head, head - 1]
    assert season.ids(count=2, before=head - 1) == [head - 2, head - 3]


def test_they_are_wanted_by_kind_and_station(season: Season) -> None:
    assert season.ids(kinds=("fill",)) == [season.filled]
    assert season.ids(station="dock") == [season.received]
    assert season.ids(station="dock", kinds=("fill",)) == []


def test_they_are_wanted_by_what_they_are_about(season: Season) -> None:
    assert season.ids(code=season.pull) == [season.received]
    assert season.ids(code=season.tag.lower()) == [season.received]
    assert season.ids(code=season.drum) == [season.filled + 1, season.filled]
    assert season.ids(code=season.drum, station="bench") == [season.filled + 1]
    assert season.ids(code=season.drum, kinds=("fill",)) == [season.filled]
    assert season.received in season.ids(code=season.yard)
    assert season.filled in season.ids(code=season.tank)
    assert season.ids(code=season.drum, before=season.filled + 1) == [season.filled]


def test_those_of_a_run_a_note_and_a_person_are_found_by_their_codes(season: Season) -> None:
    house = season.house
    person = house.do(Register("operator", {"name": "Ann Reed"})).given[0]
    opened = house.do(OpenRun("Tank 1"), operator=person)
    run = code_in(opened, "R")
    closed = house.do(CloseRun(run), operator=person, run=run)
    assert season.ids(code=run)[0] == closed.entries[0].id
    assert set(season.ids(code=person)) >= {opened.entries[0].id, closed.entries[0].id}
    house.do(Register("customer", {"name": "Corner Shop"}))
    sent = house.do(Dispatch("Corner Shop", (DispatchLine(season.drum),)))
    assert season.ids(code=code_in(sent, "N")) == [sent.entries[0].id]


def test_a_code_of_no_house_is_refused_with_near_ones(season: Season) -> None:
    wrong = f"{season.tag[:7]}{(int(season.tag[7]) + 1) % 10}{season.tag[8:]}"
    with pytest.raises(Refusal) as asked:
        season.ids(code=wrong)
    assert season.tag in asked.value.offers


def test_what_a_reversal_takes_with_it_is_the_chain_newest_first(season: Season) -> None:
    done = season.undoing(season.received)
    assert [row.entry for row in done.rows] == [season.received]
    loaded = season.filled - 1
    chain = season.undoing(loaded)
    assert [row.entry for row in chain.rows] == [
        entry.id for entry in season.house.house.chain(loaded)
    ]
    assert [row.entry for row in chain.rows][-1] == loaded
    assert season.filled in [row.entry for row in chain.rows]
    assert not chain.has_left


def test_what_has_left_the_house_is_said(season: Season) -> None:
    season.house.do(Register("customer", {"name": "Corner Shop"}))
    season.house.do(Dispatch("Corner Shop", (DispatchLine(season.drum),)))
    assert season.undoing(season.filled - 1).has_left


def test_each_kind_of_entry_has_its_ways_to_be_amended(season: Season) -> None:
    house = season.house
    assert season.undoing(season.received).amends == (Amendable("yard", season.pull, "Creek"),)
    load = season.undoing(season.filled - 1).amends
    number = str(season.filled - 1)
    assert load == (Amendable("load", number, "Tank 1"), Amendable("entry", number, ""))
    drum = season.undoing(season.filled).amends
    assert [one.what for one in drum] == ["container", "filled_on", "source", "entry"]
    assert {one.code for one in drum[:-1]} == {season.drum}
    house.do(Register("supplier", {"name": "Trader"}))
    bought = house.buy("trader", 290_000)
    entry = house.house.ask(lambda view: view.head().entry)
    assert season.undoing(entry).amends == (Amendable("supplier", bought, "Trader"),)


def test_jars_are_amended_by_product_and_unknown_honey_by_its_pallet(season: Season) -> None:
    house = season.house
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    bottled = house.do(Bottle(lot, 40)).entries[0].id
    jars = season.undoing(bottled).amends
    assert [(one.what, one.now) for one in jars] == [("product", "Clover"), ("source", "")]
    done = house.do(Fill(house.vessel("Tank 9"), Weight(net_g=50_000)))
    unknown = next(one for one in done.codes if one[0] == "S")
    found = season.undoing(done.entries[0].id).amends
    assert Amendable("pallet", unknown, "Tank 9") in found


def test_a_drum_that_was_found_is_amended_by_its_run_first(season: Season) -> None:
    done = season.house.do(FoundDrum(Weight(net_g=280_000)))
    drum = code_in(done, "D")
    ways = season.undoing(done.entries[0].id).amends
    assert ways[0] == Amendable("run", drum, "")
    assert "container" in [way.what for way in ways]


def test_what_is_reversed_is_not_amended(season: Season) -> None:
    season.house.do(Reverse(season.received, "typed twice"))
    assert season.undoing(season.received).amends == ()


def test_an_entry_that_is_not_there(season: Season) -> None:
    assert refused(lambda: season.undoing(999)) == (
        "There is no entry 999. Look it up in the lot's history."
    )


def test_a_run_s_entries_are_told_with_what_was_put_into_it() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Line", sort="line")
    opening = house.do(OpenRun("Line")).entries[0]
    _, tag = house.pull("Creek", 148_000)
    load = house.do(Load(tag, "Line"), run="none").entries[0].id
    house.do(Amend(entry=load, run=opening.act.run, reason="typed without"))
    rows = house.house.ask(lambda view: entry_rows(view, Wanted(code=opening.act.run)))
    assert [row.entry for row in rows] == [load, opening.id]
