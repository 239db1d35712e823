"""What is typed on the floor, as facts of a verb."""

import pytest

from honeyledger.desktop.stations.extraction.typed import (
    Asked,
    FillTyped,
    HeelTyped,
    closing_draft,
    fill_facts,
    heels_of,
    load_facts,
    wet_out_facts,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load, WetOut


def test_a_blank_count_is_the_whole_pallet() -> None:
    assert load_facts("G26-0001-3", "E26-0001-W", " ", Asked()) == Load("G26-0001-3", "E26-0001-W")
    part = load_facts("G26-0001-3", "E26-0001-W", "12", Asked(why="sampled"))
    assert part == Load("G26-0001-3", "E26-0001-W", 12, despite_hold="sampled")


def test_weights_are_of_the_houses_unit() -> None:
    typed = FillTyped("E26-0002-U", "E26-0003-S", "310,5", "")
    assert fill_facts(typed, "kg", Asked()).weight == Weight(gross_g=310_500)
    pounds = FillTyped("E26-0002-U", "", "660", "40")
    assert fill_facts(pounds, "lb", Asked()).weight == Weight(gross_g=299_371, tare_g=18_144)
    assert wet_out_facts("36", "", "kg") == WetOut(36)
    assert wet_out_facts("36", "210", "kg") == WetOut(36, 210_000)


def test_only_what_is_said_to_follow_follows() -> None:
    blank = FillTyped("E26-0002-U", "", "", "")
    assert not fill_facts(blank, "kg", Asked()).pending
    assert fill_facts(blank, "kg", Asked(follows=True)).pending
    weighed = FillTyped("E26-0002-U", "", "300", "18")
    assert not fill_facts(weighed, "kg", Asked(follows=True)).pending


def test_a_seal_goes_with_the_fill() -> None:
    typed = FillTyped("E26-0002-U", "", "300", "18", " A 104 ")
    assert fill_facts(typed, "kg", Asked()).seal == "A 104"


def test_what_was_answered_goes_with_the_fill() -> None:
    typed = FillTyped("E26-0002-U", "E26-0003-S", "300", "")
    asked = Asked(washed=False, top_up=True, why="goes apart")
    assert fill_facts(typed, "kg", asked) == Fill(
        "E26-0002-U",
        Weight(gross_g=300_000),
        container="E26-0003-S",
        washed=False,
        top_up=True,
        despite_hold="goes apart",
    )


@pytest.mark.parametrize(
    ("count", "said"),
    [
        ("0", f"0 cannot be a number of supers: type a figure from 1 to {format_number(10**9)}."),
        ("12,5", "12,5 is not a whole number: type a number of supers, such as 24."),
        ("", "Nothing is typed here: type a number of supers, such as 24."),
    ],
)
def test_a_count_that_is_none_is_refused(count: str, said: str) -> None:
    with pytest.raises(Refusal) as caught:
        wet_out_facts(count, "", "kg")
    assert (caught.value.field, caught.value.text) == ("count", said)


def test_a_heel_keeps_how_it_was_read() -> None:
    assert HeelTyped("E26-0002-U", "Tank 1", 40_000, "dip").how == "dip"


def test_what_was_typed_for_a_closing_is_kept_and_read_again() -> None:
    heel = HeelTyped("E26-0002-U", "Tank 1", 40_000, "dip")
    assert closing_draft("R26-0001-X", (), pending=False) == {}
    kept = closing_draft("R26-0001-X", (heel,), pending=True)
    assert kept == {
        "run": "R26-0001-X",
        "heels": [["E26-0002-U", 40_000, "dip"]],
        "pending": True,
    }
    names = {"E26-0002-U": "Tank 1"}.__getitem__
    assert heels_of(kept, names) == (heel,)
    assert heels_of({"heels": [["E26-0002-U", "much", "dip"], 3]}, names) == ()
    assert heels_of({"heels": "none"}, names) == ()
