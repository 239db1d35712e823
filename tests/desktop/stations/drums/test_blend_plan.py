"""What a plan of a blend comes to, and whether it is what is wanted of it."""

from dataclasses import replace

import pytest

from honeyledger.desktop.models.asked import FormTyped, LineTyped
from honeyledger.desktop.stations.drums.blend_plan import (
    Mixed,
    Wanted,
    blend_figures,
    blend_heading,
    judged,
    made_figures,
    made_heading,
    misses,
    mixed,
    wanted_of,
)
from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.services.blending import BlendSheet, PartRow
from honeyledger.services.drums_page import DrumRow
from tests.desktop.stations.drums.pages import DARK, HELD, PAGE, PALE, UNREAD

PLAN = Mixed(2, 500_000, 1_692, (310, 990), ("Mill Lane", "Willow Bank"), ())


def _plan(*lines: tuple[DrumRow, dict[str, str]]) -> FormTyped:
    return FormTyped({}, tuple(LineTyped(row.code, values) for row, values in lines))


def test_a_plan_mixes_moisture_by_mass_and_colour_only_as_a_range() -> None:
    # 300 kg at 17.2 % and 200 kg at 16.5 %: 51.6 + 33.0 kg of water in 500 kg.
    plan = mixed(_plan((PALE, {}), (DARK, {"planned": "250", "weighed": "200"})), PAGE)
    assert (plan.grams, plan.moisture, plan.colours) == (500_000, 1_692, (310, 990))
    assert plan.yards == ("Mill Lane", "Willow Bank")
    assert [(one.figure, one.meaning) for one in blend_figures(plan, "kg")] == [
        ("500 kg", "goes in"),
        ("16.92 %", "keeps"),
        ("31 mm – 99 mm", "colour of its parts"),
        ("2", "yards tied"),
    ]
    assert blend_heading(plan) == "The plan, 2 parts: Mill Lane and Willow Bank"


def test_what_was_not_read_leaves_the_moisture_of_a_plan_open() -> None:
    plan = mixed(_plan((PALE, {"planned": "abc"}), (UNREAD, {})), PAGE)
    assert (plan.grams, plan.moisture, plan.parts) == (327_000, None, 2)
    assert blend_figures(plan, "kg")[1].figure == "not read"
    assert mixed(_plan((HELD, {})), PAGE).held == ("D26-0003-8",)
    assert blend_heading(mixed(FormTyped(), PAGE)) == "The plan, 0 parts"


def test_what_is_wanted_is_typed_as_people_say_it() -> None:
    typed = FormTyped({"most": "17,8", "span": "30 - 44,5 mm"})
    assert wanted_of(typed) == Wanted(1_780, (300, 445))
    assert wanted_of(FormTyped()) == Wanted()


@pytest.mark.parametrize("text", ["amber", "44-30", "30"])
def test_a_span_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        wanted_of(FormTyped({"span": text}))
    assert refused.value.text == (
        f"{text} is no range of colours: type it in millimetres, such as 30-44."
    )
    assert refused.value.field == "span"


def test_a_plan_says_in_what_it_is_not_what_is_wanted() -> None:
    assert misses(PLAN, Wanted(1_700, (300, 1_000))) == []
    assert misses(PLAN, Wanted(1_690, (320, 900))) == [
        "16.92 % is over 16.9 %",
        "a part of 31 mm is too light",
        "a part of 99 mm is too dark",
    ]
    unread = replace(PLAN, moisture=None, colours=None, all_coloured=False)
    assert misses(unread, Wanted(1_700, (300, 440))) == [
        "not every part's moisture was read",
        "not every part's colour was read",
    ]


def test_it_is_judged_only_where_something_is_wanted() -> None:
    assert judged(PLAN, FormTyped(), "the plan") == ""
    assert judged(PLAN, FormTyped({"span": "amber"}), "") == "", "that is said in the form"
    assert (
        judged(PLAN, FormTyped({"most": "16.9"}), "the plan")
        == "Not as wanted: 16.92 % is over 16.9 %"
    )
    assert judged(PLAN, FormTyped({"most": "17"}), blend_heading(PLAN)) == (
        "As wanted. The plan, 2 parts: Mill Lane and Willow Bank"
    )


def test_what_was_made_of_a_blend_is_told_against_its_plan() -> None:
    part = PartRow("D26-0001-C", "drum", 59_000, 60_000, 0.6, 1_720, False)
    other = PartRow("D26-0002-A", "drum", None, 40_000, 0.4, 1_650, False)
    sheet = BlendSheet(
        9, Moment(1_784_882_400_000, 0, "UTC"), "blend", "", (part, other), 1_692, 1_700,
        ("D26-0005-4",),
    )  # fmt: skip
    assert made_heading("Blender", sheet) == "Blended in Blender, 24 Jul 2026 08:40: 2 parts"
    assert [(one.figure, one.meaning) for one in made_figures(sheet, "kg")] == [
        ("100.0 kg", "weighed"),
        ("+1.0 kg", "against 99.0 kg planned"),
        ("16.92 %", "by its parts"),
        ("17.00 %", "read since, D26-0005-4"),
    ]
    bare = replace(sheet, parts=(other,), moisture=None, measured=None, read_on=())
    assert made_heading("Blender", bare).endswith(": one part")
    assert [(one.figure, one.meaning) for one in made_figures(bare, "kg")] == [
        ("40.0 kg", "weighed"),
        ("not read", "by its parts"),
        ("not read", "since"),
    ]
    several = replace(sheet, read_on=("D26-0005-4", "D26-0006-2"))
    assert made_figures(several, "kg")[-1].meaning == "read since, 2 lots"
