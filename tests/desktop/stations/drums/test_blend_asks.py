"""The form of a blend: its parts, planned and weighed."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, LineTyped, Reading
from honeyledger.desktop.stations.drums.blend_asks import blend_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from tests.desktop.stations.drums.pages import PAGE

READING = Reading("kg", date(2026, 7, 24), PAGE)


def test_a_part_without_a_weight_is_all_of_the_drum_unless_less_was_planned() -> None:
    values = {"into": "E26-0002-U", "purpose": "cream", "note": "soft", "despite": "so be it"}
    whole = LineTyped("D26-0001-C")
    part = LineTyped("D26-0002-A", {"planned": "100", "weighed": "101,5"})
    assert blend_form().facts(FormTyped(values, (whole, part)), READING) == [
        Blend(
            "E26-0002-U",
            (
                Portion("D26-0001-C", whole=True),
                Portion("D26-0002-A", Weight(net_g=101_500), 100_000),
            ),
            "cream",
            "soft",
            "so be it",
        )
    ]
    only_planned = FormTyped(values, (LineTyped("D26-0002-A", {"planned": "100"}),))
    with pytest.raises(Refusal) as refused:
        blend_form().facts(only_planned, READING)
    assert refused.value.field == "weighed@D26-0002-A"
    assert refused.value.text == (
        "Of D26-0002-A 100.0 kg is planned: type what the scale says, or empty the plan so that "
        "all of it goes in."
    )


def test_what_is_wanted_is_no_fact_but_must_be_readable() -> None:
    line = (LineTyped("D26-0001-C"),)
    facts = blend_form().facts(FormTyped({"into": "E26-0002-U", "most": "17,8"}, line), READING)
    assert facts == blend_form().facts(FormTyped({"into": "E26-0002-U"}, line), READING)
    with pytest.raises(Refusal) as refused:
        blend_form().facts(FormTyped({"most": "dry"}, line), READING)
    assert refused.value.field == "most"
