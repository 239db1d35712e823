"""What the pages of places still to come are made of."""

from dataclasses import dataclass

from honeyledger.desktop.stations.meanwhile.page import (
    honey_column,
    mass,
    number_column,
    summed,
)


@dataclass(frozen=True)
class Row:
    code: str = "D26-0001-C"
    name: str = "Drum 7"
    state: str = "hold"
    grams: int = 295_400
    jars: int = 0
    moisture: int | None = 1720


def test_columns_show_what_there_is_and_nothing_for_nothing() -> None:
    row = Row()
    assert number_column("jars", "Jars", lambda one: one.jars).cell(row).text == ""
    assert honey_column("Net", "kg", decimals=1).cell(row).text == "295.4"
    assert honey_column("Net", "kg", estimated=True).cell(row).estimated


def test_masses_and_percentages_leave_their_units_to_the_head() -> None:
    assert mass(1_862_400, "kg") == "1\u202f862"
    assert mass(45_359, "lb", 1) == "100.0"


def test_one_value_is_added_up() -> None:
    assert summed([Row(), Row(grams=600)], "grams") == 296_000
