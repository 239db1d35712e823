"""A house's own rules as its records have them."""

from decimal import Decimal

import pytest

from honeyledger.domain.own_rules import own_standards, read_rule
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.standards import Mark

MOISTURE = {"name": "Ours", "property": "Moisture", "highest": "17,5", "source": "our contract"}


def test_a_rule_is_read_as_it_was_typed() -> None:
    rule = read_rule({**MOISTURE, "kinds": "heather, Lime", "as_of": "2026"})
    assert (rule.what, rule.unit, rule.lowest, rule.highest) == (
        *("moisture", "%", None),
        Decimal("17.5"),
    )
    assert (rule.mark, rule.source, rule.as_of) == (Mark.OWN, "our contract", "2026")
    assert rule.any_of == {"heather", "lime"}
    assert read_rule({"property": "solids", "lowest": "82"}).source == "the house's own rule"


@pytest.mark.parametrize(
    ("record", "sentence"),
    [
        (
            {"property": "taste", "highest": "1"},
            "taste is nothing that rules judge: choose of moisture, colour, temperature, optical "
            "density, conductivity, hmf, diastase, free acid, fructose and glucose, sucrose, "
            "insolubles, yeast, solids.",
        ),
        (
            {"property": "hmf"},
            "A rule needs a lowest or a highest figure: type one of them, such as 17.5.",
        ),
        (
            {"property": "hmf", "highest": "<5"},
            "<5 is no figure for a limit: type a number, like 17.5.",
        ),
        (
            {"property": "hmf", "lowest": "9", "highest": "8"},
            "The lowest, 9, is above the highest, 8. Correct one of them.",
        ),
    ],
)
def test_what_cannot_be_right_is_refused(record: dict[str, str], sentence: str) -> None:
    with pytest.raises(Refusal) as caught:
        read_rule(record)
    assert caught.value.text == sentence


def test_rules_go_under_the_standards_they_belong_to() -> None:
    found = own_standards([MOISTURE, {**MOISTURE, "standard": "EU"}, {"property": "taste"}])
    assert [(one.name, len(one.rules)) for one in found] == [("own", 1), ("eu", 1)]
    assert found[0].title == "The house's own rules"
