"""What the dock's form says once it is read, and how it outlives a crash."""

import json
from datetime import date

import pytest

from honeyledger.desktop.stations.dock.typed import (
    LineTyped,
    Typed,
    as_draft,
    facts_of,
    from_draft,
    next_form,
    repeated_line,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.dock import Choice
from honeyledger.services.dock_page import DockPage, Repeated, dock_page
from tests.support.houses import BuiltHouse

TODAY = date(2026, 7, 24)
LINE = LineTyped("Mill Lane", "40", "23 Jul 2026", "North truck", "36", "medium")


def _page(house: BuiltHouse, yard: str = "") -> DockPage:
    return house.house.ask(lambda view: dock_page(view, house.now_ms, yard))


def test_a_form_is_read_into_the_facts_of_the_terminal() -> None:
    typed = Typed(LINE, gross="812,5", condition="green", moisture="17.2 %")
    assert facts_of(typed, TODAY, "kg") == Receive(
        (Line("Mill Lane", 36, "medium", "2026-07-23", "North truck", 40),),
        gross_g=812_500,
        condition="green",
        moisture=1720,
    )


def test_pounds_are_read_in_a_house_that_weighs_in_pounds() -> None:
    assert facts_of(Typed(LINE, gross="100"), TODAY, "lb").gross_g == 45_359


def test_the_lines_kept_come_first_and_an_empty_last_one_is_none() -> None:
    second = LineTyped("Long Field", supers="4", box="deep")
    assert [line.yard for line in facts_of(Typed(second, (LINE,)), TODAY, "kg").lines] == [
        "Mill Lane",
        "Long Field",
    ]
    empty = LineTyped(pulled="today", crew="North truck", box="medium")
    assert [line.yard for line in facts_of(Typed(empty, (LINE,)), TODAY, "kg").lines] == [
        "Mill Lane"
    ]


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        (Typed(), "yard"),
        (Typed(LineTyped("Mill Lane")), "count"),
        (Typed(LineTyped("Mill Lane", supers="1.5")), "count"),
        (Typed(LineTyped("Mill Lane", sheet="many", supers="3")), "sheet"),
        (Typed(LineTyped("Mill Lane", pulled="soon", supers="3")), "pulled"),
        (Typed(LINE, gross="1.234"), "gross_g"),
        (Typed(LINE, moisture="wet"), "moisture"),
    ],
)
def test_what_cannot_be_read_names_its_field(typed: Typed, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        facts_of(typed, TODAY, "kg")
    assert refused.value.field == field


def test_a_draft_gives_back_what_was_typed_and_its_id() -> None:
    typed = Typed(LINE, (LineTyped("Long Field", supers="4"),), "812,5", "mixed", "17.2")
    kept = json.loads(json.dumps(as_draft(typed, "id-7")))
    assert from_draft(kept) == (typed, "id-7")


def test_a_form_with_nothing_of_its_own_leaves_no_draft() -> None:
    assert as_draft(Typed(LineTyped(pulled="24 Jul 2026", crew="North", box="medium")), "x") == {}


@pytest.mark.parametrize("kept", [{}, {"line": 3, "kept": "x", "gross": 5}, {"kept": [1, None]}])
def test_a_draft_that_is_none_is_an_empty_form(kept: dict[str, object]) -> None:
    typed, command = from_draft(kept)
    assert (typed.line, typed.gross, command) == (LineTyped(), "", "")


def test_the_first_pallet_of_the_day_begins_with_today_and_the_usual_box() -> None:
    page = _page(BuiltHouse())
    assert repeated_line(page) == LineTyped(pulled="24 Jul 2026", box="medium")
    assert repeated_line(None) == LineTyped()


def test_the_next_pallet_repeats_day_crew_and_box_only() -> None:
    after = next_form(Typed(LINE, gross="800", condition="green"), None)
    assert after == Typed(LineTyped(pulled="23 Jul 2026", crew="North truck", box="medium"))


def test_a_house_without_medium_boxes_begins_with_its_own() -> None:
    page = _page(BuiltHouse())
    deep = DockPage(
        **{
            name: getattr(page, name)
            for name in DockPage.__dataclass_fields__
            if name not in ("boxes", "repeated")
        },
        boxes=(Choice("deep", "deep"),),
        repeated=Repeated(),
    )
    assert repeated_line(deep).box == "deep"
