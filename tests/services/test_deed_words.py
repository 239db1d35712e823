"""What was done to a lot, in words: plurals, lists, days, and what a note says."""

from honeyledger.services.deed_words import (
    check_words,
    complaint_words,
    count_of,
    deed_words,
    fact_words,
    listed,
    sent_words,
)
from honeyledger.services.stock import PlaceNames
from tests.support.houses import BuiltHouse


def test_counts_and_lists_as_they_are_said() -> None:
    assert [count_of(1, "jars"), count_of(12, "jars"), count_of(0, "supers")] == [
        "1 jar",
        "12 jars",
        "0 supers",
    ]
    assert [listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]


def test_a_note_says_all_that_was_written_on_it_and_nothing_else() -> None:
    said = {"to": "customer/c", "carrier": "Hill Haulage", "seals": ["S 1"], "contract": "C 77"}
    assert sent_words("N26-0001-R", said) == (
        "on dispatch note N26-0001-R, carried by Hill Haulage, seal S 1, contract C 77"
    )
    assert sent_words("N26-0001-R", {"seals": []}) == "on dispatch note N26-0001-R"


def test_a_complaint_names_who_which_jar_and_the_day_where_it_was_another() -> None:
    said = {"what": "glass", "who": "Ms Orla", "jar": "J26-0004-00382-F", "day": "2026-07-24"}
    assert complaint_words(said, "2026-07-24") == "glass, said by Ms Orla, about J26-0004-00382-F"
    answered = {"what": "glass", "day": "2026-07-24", "answer": "called back"}
    assert complaint_words(answered, "2026-07-26") == (
        "glass, on 24 Jul 2026; answered: called back"
    )


def test_work_on_a_lot_in_words() -> None:
    house = BuiltHouse()
    house.container("Drum 7")

    def said(name: str, **value: int | str | list[int]) -> str:
        return house.house.ask(lambda view: deed_words(view, name, value, PlaceNames(view), "kg"))

    assert said("labelled/9", product="clover", jars=1, torn=2) == "1 jar as clover, 2 labels torn"
    assert said("labelled/9", product="c", jars=5, roll=[1, 5]) == "5 jars as c, roll 1 to 5"
    assert said("heat/9", minutes=90, temperature=420) == "90 min, up to 42.0 °C"
    assert said("heat/9", minutes=2880, temperature=420, why="liquefying") == (
        "48 h, up to 42.0 °C (liquefying)"
    )
    assert said("heated", temperature=720) == "heated to 72.0 °C"
    assert said("blended", planned_g=175_000) == "175.0 kg planned"
    assert said("nothing of these") == ""


def test_places_and_amended_facts_in_a_sentence() -> None:
    house = BuiltHouse()
    other = house.container("Blue 1")
    names = house.house.ask(PlaceNames)
    assert fact_words(names, "container", other) == "its container is Blue 1"
    assert fact_words(names, "filled_on", "2026-07-24") == "it was filled on 24 Jul 2026"
    assert fact_words(names, "product", "clover") == "its product is clover"
    assert fact_words(names, "moisture", 1) == ""


def test_a_check_says_of_what_against_what_and_what_came_out() -> None:
    value = {"what": "20 kg", "result": "off", "value": "20.4 kg", "note": "moved"}
    assert check_words("Drum scale", value) == "Drum scale, 20 kg: off, 20.4 kg (moved)"
    assert check_words("", {"what": "Pests", "result": "ok"}) == "Pests: right"
