"""Shifts and label stock as their forms say them."""

import pytest

from honeyledger.desktop.catalogue import FACTS, read_catalogue
from honeyledger.desktop.stations.setup.kinds import facts_of, shown
from honeyledger.desktop.stations.setup.paper_kinds import shift_kind, stock_kind
from honeyledger.domain.paper_colour import COLOURS
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup_page import SetupPage, setup_page
from tests.support.houses import BuiltHouse
from tests.support.translating import FOLDER


def _page(house: BuiltHouse) -> SetupPage:
    return house.house.ask(setup_page)


def test_a_shift_shows_its_people_by_name() -> None:
    house = BuiltHouse()
    for name in ("Ann Reed", "Bo Hale"):
        house.do(Register("operator", {"name": name}))
    typed = {"name": "Early", "begins": "6", "ends": "14", "people": "Bo Hale, ann reed"}
    house.do(*facts_of(shift_kind(), typed, _page(house), "UTC"))
    page = _page(house)
    record = page.registers["shift"][0].record
    people = next(ask for ask in shift_kind().asks if ask.key == "people")
    assert shown(people, record, page) == "Bo Hale, Ann Reed"
    assert str(record["people"]).count("O26-") == 2


def test_a_stocks_measures_are_typed_in_mm_and_kept_to_the_hundredth() -> None:
    house = BuiltHouse()
    kind = stock_kind()
    typed = {ask.key: ask.usual for ask in kind.asks}
    typed |= {"name": "Jars", "width_um": "63,5", "height_um": "38.15", "columns": "3"}
    (register,) = facts_of(kind, typed, _page(house), "UTC")
    assert register.record == {
        "name": "Jars",
        "paper": "a4",
        "width_um": 63_500,
        "height_um": 38_150,
        "columns": 3,
        "rows": 1,
        "left_um": 0,
        "top_um": 0,
        "gap_x_um": 0,
        "gap_y_um": 0,
    }
    house.do(register)
    page = _page(house)
    record = page.registers["stock"][0].record
    assert [shown(ask, record, page) for ask in kind.asks[2:4]] == ["63.5", "38.15"]


def test_a_stocks_paper_is_white_unless_another_colour_is_said() -> None:
    house = BuiltHouse()
    kind = stock_kind()
    typed = {ask.key: ask.usual for ask in kind.asks} | {"width_um": "70", "height_um": "37"}
    for name, colour in (("Jars", "white"), ("Brown", "kraft"), ("Own", "#fff4d6")):
        house.do(*facts_of(kind, {**typed, "name": name, "colour": colour}, _page(house), "UTC"))
    kept = {one.name: one.record.get("colour") for one in _page(house).registers["stock"]}
    assert kept == {"Jars": None, "Brown": "kraft", "Own": "#fff4d6"}
    with pytest.raises(Refusal) as refused:
        house.do(*facts_of(kind, {**typed, "name": "No", "colour": "tin"}, _page(house), "UTC"))
    assert refused.value.field == "colour"


def test_every_colour_of_paper_is_said_in_another_language() -> None:
    said = read_catalogue(FOLDER / "es.po")
    assert [one for one in COLOURS if not said.said(one, FACTS)] == []


def test_a_measure_that_is_none_names_its_field() -> None:
    page = _page(BuiltHouse())
    with pytest.raises(Refusal) as refused:
        facts_of(stock_kind(), {"name": "Jars", "width_um": "wide"}, page, "UTC")
    assert refused.value.field == "width_um"
