"""What the pages of places still to come are made of."""

from dataclasses import dataclass

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.meanwhile.page import (
    code_column,
    counted,
    honey_column,
    mass,
    moisture_column,
    name_column,
    number_column,
    percent,
    state_column,
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
    assert code_column("Drum").cell(row).text == "D26-0001-C"
    assert state_column().cell(row).mark is Mark.HOLD
    assert name_column("name", "Name", lambda one: one.name).cell(row).text == "Drum 7"
    assert number_column("jars", "Jars", lambda one: one.jars).cell(row).text == ""
    assert honey_column("Net", "kg", decimals=1).cell(row).text == "295.4"
    assert honey_column("Net", "kg", estimated=True).cell(row).estimated
    assert moisture_column().cell(row).text == "17.2"


def test_masses_and_percentages_leave_their_units_to_the_head() -> None:
    assert mass(1_862_400, "kg") == "1\u202f862"
    assert mass(45_359, "lb", 1) == "100.0"
    assert percent(None) == ""


def test_one_is_not_many() -> None:
    assert counted(1, "One drum", "{n} drums") == "One drum"
    assert counted(1200, "One drum", "{n} drums") == "1\u202f200 drums"
    assert summed([Row(), Row(grams=600)], "grams") == 296_000
