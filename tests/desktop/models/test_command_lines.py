"""Commands are named with codes that could be given, about the row that is chosen."""

from honeyledger.desktop.models.command_lines import Command, example
from honeyledger.domain.codes import parse_code


def test_examples_are_codes_that_could_be_given() -> None:
    for letter in "YSGDJR":
        assert str(parse_code(example(letter))).startswith(f"{letter}26-0001-")


def test_a_command_is_about_the_row_that_is_chosen_else_about_a_first_one() -> None:
    command = Command("Weigh it again", "honeyledger reweigh {code} --gross 312.5", "D")
    assert command.typed("D26-0611-Y") == "honeyledger reweigh D26-0611-Y --gross 312.5"
    assert command.typed("") == f"honeyledger reweigh {example('D')} --gross 312.5"
    other = Command("Two of them", "honeyledger join {code} {G}", "G")
    assert other.typed("G26-0009-9") == f"honeyledger join G26-0009-9 {example('G')}"
