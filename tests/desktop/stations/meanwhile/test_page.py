"""What the pages of places still to come are made of."""

from dataclasses import dataclass

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.meanwhile.page import (
    Command,
    code_column,
    counted,
    example,
    honey_column,
    mass,
    moisture_column,
    name_column,
    number_column,
    percent,
    state_column,
    summed,
)
from honeyledger.domain.codes import parse_code


@dataclass(frozen=True)
class Row:
    code: str = "D26-0001-C"
    name: str = "Drum 7"
    state: str = "hold"
    grams: int = 295_400
    jars: int = 0
    moisture: int | None = 1720


def test_examples_are_codes_that_could_be_given() -> None:
    for letter in "YSGDJR":
        assert str(parse_code(example(letter))).startswith(f"{letter}26-0001-")


def test_a_command_is_about_the_row_that_is_chosen_else_about_a_first_one() -> None:
    command = Command("Weigh it again", "honeyledger reweigh {code} --gross 312.5", "D")
    assert command.typed("D26-0611-Y") == "honeyledger reweigh D26-0611-Y --gross 312.5"
    assert command.typed("") == f"honeyledger reweigh {example('D')} --gross 312.5"
    other = Command("Two of them", "honeyledger join {code} {G}", "G")
    assert other.typed("G26-0009-9") == f"honeyledger join G26-0009-9 {example('G')}"


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
