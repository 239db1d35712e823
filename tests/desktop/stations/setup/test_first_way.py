"""The way of a new house: what it lacks, in order; what was skipped comes last."""

from honeyledger.desktop.stations.setup.first_way import Way, next_on_path, step_of
from honeyledger.ledger.verbs.registers import KINDS
from honeyledger.services.setup_page import SetupPage, setup_page
from tests.support.houses import BuiltHouse

NOTHING = SetupPage({}, "kg", dict.fromkeys(KINDS, ()))


def test_a_new_house_is_asked_for_what_it_lacks_in_order() -> None:
    assert next_on_path("", NOTHING, ()) == "house"
    house = BuiltHouse()

    def following(after: str, *seen: str) -> str:
        return next_on_path(after, house.house.ask(setup_page), seen)

    assert following("house") == "operator"
    assert following("operator", "operator") == "yard"
    house.yard("Mill Lane")
    assert following("yard", "operator", "yard") == "box"
    assert following("box", "operator", "box") == "line"
    house.vessel("Line 1", sort="line")
    assert following("line", "operator", "box") == "tank"
    house.vessel("Tank 1")
    assert following("tank", "operator", "box") == ""


def test_what_was_skipped_comes_again_only_where_nothing_else_is_lacking() -> None:
    house = BuiltHouse()
    page = house.house.ask(setup_page)
    assert next_on_path("yard", page, {"operator", "yard"}) == "box"
    assert next_on_path("tank", page, {"operator", "yard", "box", "line", "tank"}) == "yard"


def test_the_steps_are_counted() -> None:
    assert [step_of(key) for key in ("house", "tank", "customer")] == [(1, 6), (6, 6), (0, 6)]


def test_a_way_goes_on_where_it_was() -> None:
    way = Way()
    way.begin(True, ["box", "nonsense"])
    assert way.is_on
    assert way.seen == {"box"}
