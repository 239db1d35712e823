"""What can be registered, how it is read, and what a new house still needs."""

import pytest

from honeyledger.desktop.stations.setup.deeds import setup_kinds
from honeyledger.desktop.stations.setup.kinds import facts_of, records_of, shown, usual
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import KINDS, Register
from honeyledger.services.setup import new_house
from honeyledger.services.setup_page import SetupPage, setup_page
from tests.support.houses import BuiltHouse

BY_KEY = {kind.key: kind for kind in setup_kinds()}
NOTHING = SetupPage({}, "kg", dict.fromkeys(KINDS, ()))


def _page(house: BuiltHouse) -> SetupPage:
    return house.house.ask(setup_page)


def test_a_first_house_comes_with_its_usual_boxes() -> None:
    typed = {"name": "Hill House", "zone": "Europe/Berlin", "unit": "lb", "prefix": ""}
    assert facts_of(BY_KEY["house"], typed, NOTHING, "UTC") == new_house(
        "Hill House", "Europe/Berlin", unit="lb"
    )
    without = facts_of(BY_KEY["house"], {"name": "Hill House"}, NOTHING, "UTC")
    assert without[0].record["zone"] == "UTC"


def test_a_house_that_is_there_is_changed_and_keeps_the_rest() -> None:
    page = _page(BuiltHouse(margin_min=5))
    (facts,) = facts_of(BY_KEY["house"], {"name": "Hill House", "unit": "kg"}, page, "UTC")
    assert facts == Register(
        "house", {"name": "Hill House", "margin_ms": 300_000, "zone": "UTC", "unit": "kg"}, ""
    )


def test_a_tank_is_fed_by_a_line_named_in_words() -> None:
    house = BuiltHouse()
    line = house.vessel("Line 1", sort="line")
    typed = {"name": "Tank 1", "fed_by": "line 1", "capacity_g": "2 500", "sort": "tank"}
    (facts,) = facts_of(BY_KEY["tank"], typed, _page(house), "UTC")
    assert facts.record == {
        "name": "Tank 1",
        "fed_by": line,
        "capacity_g": 2_500_000,
        "sort": "tank",
    }
    with pytest.raises(Refusal) as refused:
        facts_of(BY_KEY["tank"], {"name": "Tank 1", "fed_by": "Line 9"}, _page(house), "UTC")
    assert refused.value.text == (
        "There is no line called Line 9. Choose one of the list, or leave it empty and add the "
        "line."
    )


@pytest.mark.parametrize(
    ("key", "typed", "field"),
    [
        ("yard", {"name": "Mill Lane", "colonies": "12,5"}, "colonies"),
        ("box", {"name": "deep", "honey_g": "1.234"}, "honey_g"),
        ("house", {"name": "Hill House", "zone": "Mars"}, "zone"),
        ("product", {"name": "Summer", "net_g": "much"}, "net_g"),
    ],
)
def test_what_cannot_be_read_names_its_field(key: str, typed: dict[str, str], field: str) -> None:
    with pytest.raises(Refusal) as refused:
        facts_of(BY_KEY[key], typed, NOTHING, "UTC")
    assert refused.value.field == field


def test_a_record_that_is_shown_rounded_stays_as_it_is_kept_unless_typed_over() -> None:
    house = BuiltHouse()
    house.do(Register("box", {"name": "deep", "honey_g": 25_543, "tare_g": 8_500, "frames": 9}))
    page = _page(house)
    deep = next(row for row in records_of(BY_KEY["box"], page) if row.name == "deep")
    typed = {ask.key: shown(ask, deep.record, page) for ask in BY_KEY["box"].asks}
    assert typed["honey_g"] == "25.5"
    (facts,) = facts_of(BY_KEY["box"], typed | {"tare_g": "8.2"}, page, "UTC")
    assert facts.record["honey_g"] == 25_543
    assert facts.record["tare_g"] == 8_200
    assert facts.key == "deep"


def test_a_fact_that_is_emptied_is_taken_out() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane", colonies=30)
    (facts,) = facts_of(BY_KEY["yard"], {"name": "mill lane", "colonies": ""}, _page(house), "UTC")
    assert dict(facts.record) == {"name": "mill lane"}
    assert facts.key.startswith("Y26-0001-")


def test_lines_and_tanks_are_told_apart() -> None:
    house = BuiltHouse()
    house.vessel("Line 1", sort="line")
    house.vessel("Tank 1")
    page = _page(house)
    assert [row.name for row in records_of(BY_KEY["line"], page)] == ["Line 1"]
    assert [row.name for row in records_of(BY_KEY["tank"], page)] == ["Tank 1"]
    assert [row.name for row in records_of(BY_KEY["house"], page)] == ["Test House"]
    tank = records_of(BY_KEY["tank"], page)[0]
    fed_by = BY_KEY["tank"].asks[1]
    assert shown(fed_by, {"fed_by": page.registers["vessel"][0].key}, page) == "Line 1"
    assert shown(fed_by, tank.record, page) == ""


def test_a_form_begins_with_what_is_usual() -> None:
    house = BuiltHouse()
    page = _page(house)
    zone = next(ask for ask in BY_KEY["house"].asks if ask.key == "zone")
    assert usual(zone, BY_KEY["house"], page, "Europe/Berlin") == "Europe/Berlin"
    name = BY_KEY["line"].asks[0]
    assert usual(name, BY_KEY["line"], page, "UTC") == "Line 1"
    house.vessel("Line 1", sort="line")
    page = _page(house)
    assert usual(name, BY_KEY["line"], page, "UTC") == ""
    assert usual(BY_KEY["tank"].asks[1], BY_KEY["tank"], page, "UTC") == "Line 1"


def test_a_yard_says_what_a_label_may_claim_of_its_honey() -> None:
    typed = {"name": "Mill Lane", "region": "Weald", "country": "GB", "organic": "yes"}
    (facts,) = facts_of(BY_KEY["yard"], typed, NOTHING, "UTC")
    assert facts.record == {"name": "Mill Lane", "region": "Weald", "country": "GB", "organic": 1}
    (facts,) = facts_of(BY_KEY["yard"], {"name": "Mill Lane", "organic": ""}, NOTHING, "UTC")
    assert facts.record == {"name": "Mill Lane"}
    organic = next(ask for ask in BY_KEY["yard"].asks if ask.key == "organic")
    assert [shown(organic, {"organic": said}, NOTHING) for said in (1, 0)] == ["yes", ""]


def test_a_yard_that_was_organic_is_so_no_more() -> None:
    house = BuiltHouse()
    house.yard("Mill Lane", organic=1)
    (facts,) = facts_of(BY_KEY["yard"], {"name": "Mill Lane", "organic": ""}, _page(house), "UTC")
    assert "organic" not in facts.record


def test_a_piece_of_equipment_is_part_of_a_vessel_named_in_words() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    typed = {"name": "Sieve A", "sort": "sieve", "at": "tank 1"}
    (facts,) = facts_of(BY_KEY["equipment"], typed, _page(house), "UTC")
    assert facts.record == {"name": "Sieve A", "sort": "sieve", "at": tank}
    part_of = next(ask for ask in BY_KEY["equipment"].asks if ask.key == "at")
    assert shown(part_of, facts.record, _page(house)) == "Tank 1"
    with pytest.raises(Refusal) as refused:
        facts_of(BY_KEY["equipment"], typed | {"at": "Tank 9"}, _page(house), "UTC")
    assert refused.value.text == (
        "There is no vessel or line called Tank 9. Choose one of the list, or leave it empty."
    )
    assert refused.value.field == "at"


def test_what_counts_anyway_is_recorded_only_where_it_is_changed() -> None:
    typed = {"name": "Hill House", "margin_ms": "60", "usual_spread_permille": "6"}
    assert dict(facts_of(BY_KEY["house"], typed, NOTHING, "UTC")[0].record) == {
        "name": "Hill House",
        "zone": "UTC",
        "unit": "kg",
    }
    typed |= {"margin_ms": "30", "usual_spread_permille": "2,5", "web": "https://example.com"}
    assert dict(facts_of(BY_KEY["house"], typed, NOTHING, "UTC")[0].record) == {
        "name": "Hill House",
        "zone": "UTC",
        "unit": "kg",
        "margin_ms": 1_800_000,
        "usual_spread_permille": 25,
        "web": "https://example.com",
    }


def test_a_place_on_the_earth_is_shown_as_it_is_typed() -> None:
    (facts,) = facts_of(BY_KEY["yard"], {"name": "Mill Lane", "latitude": "51,5"}, NOTHING, "UTC")
    latitude = next(ask for ask in BY_KEY["yard"].asks if ask.key == "latitude")
    assert shown(latitude, facts.record, NOTHING) == "51.50000"
