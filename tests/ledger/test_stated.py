"""Countries and yards as they were told: with shares of all, or of none."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.stated import Part, check_parts, part_said, parts_in, parts_text


def test_shares_are_told_of_all_or_of_none() -> None:
    check_parts((), "yards")
    check_parts((Part("North"), Part("South")), "yards")
    check_parts((Part("North", 1), Part("South", 999)), "yards")
    check_parts((Part("North", 1000),), "yards")


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        (
            (Part("North", 600), Part("South", 401)),
            "The shares of North and South add up to 100.1 %, not to 100 %. Correct them, or "
            "leave all of them out.",
        ),
        (
            (Part("North", 1000), Part("South", 0)),
            "The shares of North and South add up to 100.0 %, not to 100 %. Correct them, or "
            "leave all of them out.",
        ),
        (
            (Part("North", 1000), Part("South")),
            "South has no share, and the others have: give each its share, or none.",
        ),
        (
            (Part("North"), Part(" north ")),
            "North is named twice. Name it once, with its whole share.",
        ),
    ],
)
def test_shares_that_cannot_be(parts: tuple[Part, ...], said: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_parts(parts, "yards")
    assert (refused.value.text, refused.value.field) == (said, "yards")


def test_how_they_are_written() -> None:
    assert parts_text((Part("North", 600), Part("South", 400))) == "North 60 %, South 40 %"
    assert parts_text((Part("North", 333), Part("South", 667))) == "North 33.3 %, South 66.7 %"
    assert parts_text((Part("North"), Part("South"))) == "North, South"


def test_a_part_is_read_as_it_was_typed() -> None:
    assert part_said(" Mill Lane ", "", "yards") == Part("Mill Lane")
    assert part_said("Mill Lane", "33,3", "yards") == Part("Mill Lane", 333)
    with pytest.raises(Refusal) as refused:
        part_said("Mill Lane", "33.33", "yards")
    assert refused.value.text == ("33.33 is too fine: shares go by tenths of a percent. Round it.")


def test_parts_are_read_from_one_text() -> None:
    assert parts_in("Argentina 60 %, Uruguay 40", "said") == (
        Part("Argentina", 600),
        Part("Uruguay", 400),
    )
    assert parts_in("A 60,5 %; B 39,5%", "said") == (Part("A", 605), Part("B", 395))
    assert parts_in("New Zealand, Chile,", "said") == (Part("New Zealand"), Part("Chile"))
    assert parts_in("", "said") == ()
