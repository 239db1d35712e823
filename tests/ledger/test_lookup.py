"""From what was scanned or typed to what it means; what does not exist is never guessed."""

import pytest

from honeyledger.domain.codes import Code, make_code, make_jar_code, parse_code
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import (
    existing_near,
    find_lot,
    find_named,
    find_pallet,
    find_record,
    find_vessel,
    read_iso_day,
)
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import OpenRun
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """A yard, a line with its tank, a drum filled from it."""
    house = BuiltHouse()
    house.yard("Creek", number="7")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    return house


def _record(house: BuiltHouse, kind: str, text: str) -> str:
    return house.house.ask(lambda view: find_record(view, kind, text)[0])


def _lot(house: BuiltHouse, text: str, kinds: str = "") -> str:
    return house.house.ask(lambda view: find_lot(view, text, kinds).code)


def test_a_record_is_found_by_name_number_code_or_key(house: BuiltHouse) -> None:
    code = house.yard("Hill")
    house.do(Register("customer", {"name": "Corner Shop"}))
    assert _record(house, "yard", " hill ") == f"yard/{code}"
    assert _record(house, "yard", code.lower().replace("-", " ")) == f"yard/{code}"
    assert _record(house, "yard", "7") == _record(house, "yard", "Creek")
    assert _record(house, "customer", "corner-shop") == "customer/corner-shop"
    assert _record(house, "customer", "CORNER SHOP") == "customer/corner-shop"
    assert house.house.ask(lambda view: find_vessel(view, "tank 1")).startswith("vessel/E26-")


def test_names_like_the_one_typed_are_shown(house: BuiltHouse) -> None:
    house.yard("Creek East")
    house.yard("North Ridge")
    assert refused(lambda: _record(house, "yard", "Crek")) == (
        "There is no yard called Crek. Choose one, such as Creek, or register it first."
    )
    assert refused(lambda: _record(house, "yard", "Moor 3")) == (
        "There is no yard called Moor 3. Choose one, such as Creek, Creek East or North Ridge, "
        "or register it first."
    )
    assert refused(lambda: _record(house, "supplier", "Anyone")) == (
        "There is no supplier called Anyone, nor any other. Register it first."
    )


def test_no_name_at_all(house: BuiltHouse) -> None:
    assert refused(lambda: _record(house, "drum", "  ")) == (
        "Name the container, or scan its code."
    )


def test_two_records_of_one_number_are_told_apart_by_their_codes(house: BuiltHouse) -> None:
    first = _record(house, "yard", "Creek").partition("/")[2]
    second = house.yard("Hill", number="7")
    assert refused(lambda: _record(house, "yard", "7")) == (
        f"More than one yard is called 7: give the code instead, {first} or {second}."
    )


def _named(house: BuiltHouse, text: str, *kinds: str) -> str:
    return house.house.ask(lambda view: find_named(view, kinds, text, "target")[0])


def test_a_name_that_several_sorts_of_things_have_is_asked_about(house: BuiltHouse) -> None:
    yard = _record(house, "yard", "Creek").partition("/")[2]
    assert _named(house, "creek", "yard", "vessel", "drum") == f"yard/{yard}"
    vessel = house.vessel("Creek")
    assert _named(house, "creek", "vessel", "drum") == f"vessel/{vessel}"
    container = house.container("Creek")
    said = refused(lambda: _named(house, "creek", "yard", "vessel", "drum"))
    assert said == (
        f"creek is a yard ({yard}), a vessel ({vessel}) and a container ({container}): "
        "say by its code which is meant."
    )
    with pytest.raises(Refusal) as asked:
        _named(house, "creek", "vessel", "drum")
    assert asked.value.offers == (vessel, container)


def test_a_number_that_is_another_things_name_is_asked_about(house: BuiltHouse) -> None:
    yard = _record(house, "yard", "7").partition("/")[2]
    container = house.container("7")
    assert refused(lambda: _named(house, "7", "yard", "drum")) == (
        f"7 is a yard ({yard}) and a container ({container}): say by its code which is meant."
    )


def test_near_codes_are_offered_never_chosen(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    wrong = f"{tag[:7]}{(int(tag[7]) + 1) % 10}{tag[8:]}"
    assert house.house.ask(lambda view: existing_near(view, wrong)) == [tag]
    assert refused(lambda: house.house.ask(lambda view: find_pallet(view, wrong))) == (
        f"{wrong} is not a code of this house. Was it {tag}? Scan it again, or look it up by name."
    )


def test_a_jar_s_code_without_its_check_character_is_offered_whole(house: BuiltHouse) -> None:
    house.vessel("Tank")
    house.load("Creek", 100_000, "Tank")
    house.do(Register("product", {"name": "Jar", "net_g": 340}))
    bottling = code_in(house.do(ChangeOver(product="Jar", feed="Tank")), "J")
    house.do(Bottle(bottling, jars=100, mean_net_mg=340_000))
    lot = parse_code(bottling)
    assert isinstance(lot, Code)
    whole = str(make_jar_code(lot, 50))
    assert refused(lambda: _lot(house, whole[:-2])) == (
        f"{whole[:-2]} is not a code of this house. Was it {whole}? Scan it again, or look it up "
        "by name."
    )
    nowhere = make_code("J", 26, 998) or make_code("J", 26, 999)
    assert nowhere is not None
    none = str(make_jar_code(nowhere, 50))[:-2]
    assert refused(lambda: _lot(house, none)).startswith(f"{none} is not a code: type it as")


def test_a_good_code_nobody_was_given(house: BuiltHouse) -> None:
    said = "{} is not a code of this house. Scan it again, or look it up by name."
    drum, tag = (str(make_code(letter, 26, 611)) for letter in "DG")
    assert refused(lambda: _lot(house, drum)) == said.format(drum)
    assert refused(lambda: house.house.ask(lambda view: find_pallet(view, tag))) == (
        said.format(tag)
    )


def test_a_code_of_another_sort_is_named(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 100_000)
    yard = _record(house, "yard", "Creek").partition("/")[2]
    line = _record(house, "vessel", "Line").partition("/")[2]
    container = house.container("17")
    run = code_in(house.do(OpenRun("Line")), "R")
    person = house.do(Register("operator", {"name": "Iva"})).given[0]
    sentence = "{} is {}, but {} is needed here. Scan that code instead."

    said = {text: refused(lambda text=text: _lot(house, text, "DJ")) for text in (pull, tag, run)}
    assert said == {
        pull: sentence.format(pull, "a pull", "a drum or jar lot"),
        tag: sentence.format(tag, "a pallet tag", "a drum or jar lot"),
        run: sentence.format(run, "a run", "a drum or jar lot"),
    }
    assert refused(lambda: _lot(house, person)) == (
        sentence.format(person, "an operator badge", "a lot")
    )
    assert refused(lambda: house.house.ask(lambda view: find_pallet(view, pull))) == (
        sentence.format(pull, "a pull", "a pallet tag")
    )
    assert refused(lambda: _record(house, "drum", line)) == (
        sentence.format(line, "a vessel", "a container")
    )
    assert refused(lambda: _record(house, "vessel", container)) == (
        sentence.format(container, "a container", "a vessel")
    )
    assert refused(lambda: _record(house, "vessel", yard)) == (
        sentence.format(yard, "a yard", "a vessel")
    )


def test_a_jar_names_its_lot(house: BuiltHouse) -> None:
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.load("Creek", 100_000, "Line")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    assert refused(lambda: _lot(house, lot)) == (
        f"{lot} is still being bottled. Close the bottling first."
    )
    house.do(Bottle(lot, 20))
    code = parse_code(lot)
    assert isinstance(code, Code)
    assert _lot(house, str(make_jar_code(code, 7))) == lot


def test_a_reversed_lot_stands_for_nothing(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Line")
    filled = house.do(Fill("Tank 1", Weight(net_g=290_000)))
    drum = filled.codes[-1]
    undone = house.do(Reverse(filled.entries[0].id, "wrong tank")).entries[0].id
    assert refused(lambda: _lot(house, drum)) == (
        f"{drum} was reversed with entry {undone} and stands for nothing. Take its label off, and "
        "use the code that came after it."
    )
    found = house.house.ask(lambda view: find_lot(view, drum, reversed_too=True))
    assert found.code == drum


def test_days_are_kept_so_that_they_compare_as_text() -> None:
    assert read_iso_day("2026-07-24", "day") == "2026-07-24"
    assert read_iso_day("20260724", "day") == "2026-07-24"
    assert read_iso_day("", "day") == ""
    for text in ("24.7.2026", "2026-7-1", "2026-02-30", "today"):
        assert refused(lambda text=text: read_iso_day(text, "day")) == (
            f"{text} is not a day: write it like 2026-07-24."
        )
