"""Places and readings as parts of a sentence."""

from honeyledger.services.place_words import (
    at_words,
    into_words,
    place_words,
    reading_words,
    result_words,
)
from honeyledger.services.stock import PlaceNames
from tests.support.houses import BuiltHouse


def test_a_place_says_once_what_it_is() -> None:
    house = BuiltHouse()
    drum, other = house.container("Drum 7"), house.container("Blue 1")
    names = house.house.ask(PlaceNames)
    assert place_words(names, f"drum/{drum}") == "Drum 7"
    assert place_words(names, f"drum/{other}") == "drum Blue 1"
    assert place_words(names, "jars") == "the jar store"


def test_where_something_is_and_what_it_went_into() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    names = house.house.ask(PlaceNames)
    assert at_words(names, f"vessel/{tank}") == "in Tank 1"
    assert into_words(names, f"vessel/{tank}") == "into Tank 1"
    assert at_words(names, "pallet/G26-0001-X") == "on pallet G26-0001-X"
    assert into_words(names, "pallet/G26-0001-X") == "on pallet G26-0001-X"
    assert at_words(names, "customer/corner-shop") == "with corner-shop"
    assert at_words(names, "gate/2026-07-24") == "sold at farm gate, 24 Jul 2026"


def test_a_reading_with_its_unit_and_nothing_for_what_is_none() -> None:
    assert reading_words("moisture", 1_710, "kg") == "moisture 17.1 %"
    assert reading_words("colour", 340, "kg") == "colour 34 mm"
    assert reading_words("temperature", 345, "kg") == "temperature 34.5 °C"
    assert reading_words("weighed_g", 295_400, "kg") == "net 295.4 kg"
    assert reading_words("pending", 1, "kg") == "weight to follow"
    assert reading_words("pending", 0, "kg") == ""
    assert reading_words("roll", 1, "kg") == ""


def test_results_are_told_as_reported_and_composites_as_such() -> None:
    assert result_words("hmf", "<5") == "HMF <5 mg/kg"
    assert result_words("composite/moisture", 1_780) == "moisture 17.8 % (a composite)"
    assert result_words("composite/hmf", "not detected") == "HMF not detected (a composite)"
    assert result_words("moisture", 1_780) == ""  # a plain figure of the ledger's
    assert result_words("label", "void") == ""
    assert result_words("composite/hmf", {}) == ""
