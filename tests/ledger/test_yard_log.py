"""What a yard's marks say together: supers on it, its flag, where its empties went."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import Load, OpenRun, WetOut
from honeyledger.ledger.verbs.yards import Disease, SupersOn
from honeyledger.ledger.yard_log import flag_of, supers_on_since, where_empties_went
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def test_supers_are_on_until_as_many_were_pulled() -> None:
    house = BuiltHouse()
    yard = f"yard/{house.yard('Creek')}"

    def on(day: str) -> str:
        return house.house.ask(lambda view: supers_on_since(view, yard, day))

    house.do(SupersOn("Creek", 30, "2026-06-01"))
    assert (on("2026-05-31"), on("2026-06-01")) == ("", "2026-06-01")
    house.do(Receive((Line("Creek", 20, pulled="2026-07-01"),)))
    assert on("2026-07-02") == "2026-06-01"
    house.do(Receive((Line("Creek", 10, pulled="2026-07-03"),)))
    assert (on("2026-07-02"), on("2026-07-03")) == ("2026-06-01", "")
    house.do(SupersOn("Creek", 30, "2026-07-10"))
    assert on("2026-07-20") == "2026-07-10"


def test_empties_of_a_run_are_of_the_yards_loaded_in_it() -> None:
    house = BuiltHouse()
    creek, hill = (f"yard/{house.yard(name)}" for name in ("Creek", "Hill"))
    house.vessel("Line")
    run = code_in(house.do(OpenRun("Line")), "R")
    _, tag = house.pull("Creek", 100_000)
    house.do(Load(tag, "Line"), run=run)
    house.do(WetOut(10, to="Hill"), run=run)
    house.do(WetOut(10, to="the stack"), run=run)

    def went(yard: str, since: str) -> list[str]:
        return house.house.ask(lambda view: where_empties_went(view, yard, since))

    assert went(creek, "2026-07-24") == ["Hill", "the stack"]
    assert went(creek, "2026-07-25") == []
    assert went(hill, "2026-07-24") == []


def test_a_lifted_flag_is_none() -> None:
    house = BuiltHouse()
    yard = f"yard/{house.yard('Creek')}"
    assert house.house.ask(lambda view: flag_of(view, yard)) is None
    house.do(Disease("Creek", "foulbrood"))
    assert house.house.ask(lambda view: flag_of(view, yard)) is not None
    house.do(Disease("Creek", until="2026-07-24"))
    assert house.house.ask(lambda view: flag_of(view, yard)) is None


@pytest.mark.parametrize("typed", ["Cre\0ek", "Cre\ud800ek", "Moor"])
def test_a_yard_that_cannot_be_on_record_is_refused_beside_others(typed: str) -> None:
    house = BuiltHouse()
    house.yard("Creek")
    before = house.house.ask(lambda view: view.head())
    with pytest.raises(Refusal) as refused:
        house.do(Receive((Line("Creek", 20), Line(typed, 10))))
    assert refused.value.sentence.key in {"no-text", "unknown-name"}
    assert house.house.ask(lambda view: view.head()) == before
