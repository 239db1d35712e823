"""Rows of the sample's logs as the facts of verbs, with the names they give."""

from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_steps import STEPS, Names, Step
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs import (
    bottling,
    bought_in,
    by_products,
    corrections,
    dispatch,
    dock,
    drums,
    floor,
    leftovers,
    measuring,
    opening,
    quality,
)
from tests.support.houses import BuiltHouse

CODES = {
    "run 5": "R26-0005-P",
    "pallet 12": "G26-0012-2",
    "Oatfell on pallet 12": "S26-0019-J",
    "drum 45": "D26-0045-P",
    "barrel 3": "W26-0003-J",
    "bottling 7": "J26-0007-9",
    "unknown 1": "S26-0092-F",
}


def names() -> Names:
    known = Names()
    for at, (name, code) in enumerate(CODES.items(), 1):
        known.give(name, code, at)
    return known


def step(file: str, *rows: Mapping[str, Any]) -> Step:
    return STEPS[file]([Row(at, row) for at, row in enumerate(rows, 2)], names())


@pytest.mark.parametrize(
    ("file", "row", "facts"),
    [
        (
            "pallets",
            {"what": "split", "pallet": "12", "supers": 14, "onto": "12b"},
            dock.Split(CODES["pallet 12"], 14),
        ),
        (
            "pallets",
            {"what": "count", "pallet": "12", "supers": 31, "yard": "Oatfell"},
            dock.Count(CODES["pallet 12"], 31, CODES["Oatfell on pallet 12"]),
        ),
        (
            "pallets",
            {"what": "join", "pallet": "13", "onto": "12"},
            dock.Join("pallet 13", CODES["pallet 12"]),
        ),
        (
            "pallets",
            {
                "what": "set aside",
                "pallet": "12",
                "why": "set",
                "to": "bees",
                "frames": 16,
                "bees": "Oatfell",
            },
            leftovers.SetAside(CODES["pallet 12"], "set", "bees", frames=16, yard="Oatfell"),
        ),
        (
            "floor",
            {"what": "melt", "vessel": "Melter", "wax_g": 140, "net_g": 81, "residue_g": 30},
            by_products.Melt("Melter", 140, 81, 30),
        ),
        (
            "drums",
            {"what": "scrape back", "source": "bottling 7", "jars": 9, "into": "Tank"},
            drums.Fill(CODES["bottling 7"], jars=9, into="Tank"),
        ),
        (
            "floor",
            {"what": "open", "run": "6", "vessel": "Line A", "crew": "Jory"},
            floor.OpenRun("Line A", crew="Jory"),
        ),
        (
            "floor",
            {"what": "load", "run": "5", "vessel": "Line A", "pallet": "12", "supers": 20},
            floor.Load(CODES["pallet 12"], "Line A", 20),
        ),
        (
            "floor",
            {"what": "wet out", "run": "5", "supers": 117, "gross_g": 900_000, "tare_g": 84_000},
            floor.WetOut(117, 900_000, 84_000),
        ),
        (
            "floor",
            {"what": "cappings", "run": "5", "vessel": "Line A", "net_g": 140_000, "barrel": "4"},
            floor.Cappings("Line A", 140_000, "4"),
        ),
        (
            "floor",
            {"what": "skim", "run": "5", "vessel": "Settling tank", "net_g": 6_500},
            drums.Skim("Settling tank", 6_500),
        ),
        (
            "floor",
            {"what": "wash", "vessel": "Line A + Sump", "remains": "rinse"},
            floor.Wash(("Line A", "Sump"), "rinse"),
        ),
        (
            "floor",
            {"what": "close", "run": "5", "vessel": "Settling tank", "heel_g": 31_000},
            floor.CloseRun(CODES["run 5"], (floor.Heel("Settling tank", 31_000),)),
        ),
        (
            "floor",
            {"what": "close", "run": "5", "pending": True},
            floor.CloseRun(CODES["run 5"], cappings_pending=True),
        ),
        (
            "drums",
            {"what": "fill", "source": "Settling tank", "container": "Drum 9", "gross_g": 311_000},
            drums.Fill("Settling tank", Weight(gross_g=311_000), "Drum 9"),
        ),
        (
            "drums",
            {"what": "part fill", "source": "barrel 3", "container": "Drum 9", "net_g": 107_000},
            drums.Fill(CODES["barrel 3"], Weight(net_g=107_000), "Drum 9", bung=False),
        ),
        (
            "drums",
            {"what": "top up", "source": "Settling tank", "container": "Drum 9", "net_g": 140_000},
            drums.Fill("Settling tank", Weight(net_g=140_000), "Drum 9", top_up=True),
        ),
        (
            "drums",
            {"what": "fill", "source": "Settling tank", "container": "Tote 1", "washed": False},
            drums.Fill("Settling tank", container="Tote 1", washed=False),
        ),
        ("drums", {"what": "bung", "container": "Drum 9"}, drums.Bung("Drum 9")),
        (
            "drums",
            {"what": "weigh", "container": "drum 45", "gross_g": 310_000},
            drums.Reweigh(CODES["drum 45"], Weight(gross_g=310_000)),
        ),
        (
            "drums",
            {"what": "pour", "source": "drum 45", "into": "Bottling tank", "whole": True},
            drums.Fill(CODES["drum 45"], into="Bottling tank", whole=True),
        ),
        (
            "readings",
            {"lot": "drum 45", "moisture": 1_760, "colour": 240, "instrument": "R1"},
            measuring.Measure(CODES["drum 45"], 1_760, 240, instrument="R1"),
        ),
        (
            "bought",
            {"lot": "bought 1", "supplier": "Ambrallo", "their_lot": "A1", "country": "AR"},
            bought_in.Purchase("Ambrallo", Weight(), "A1", "AR"),
        ),
        (
            "bottling",
            {"what": "start", "bottling": "8", "product": "Jar", "source": "drum 45"},
            bottling.ChangeOver(product="Jar", feed=CODES["drum 45"]),
        ),
        (
            "bottling",
            {"what": "change", "bottling": "7", "source": "drum 45", "jars": 580, "empty": True},
            bottling.ChangeOver(CODES["bottling 7"], feed=CODES["drum 45"], jars=580, empty=True),
        ),
        (
            "bottling",
            {"what": "end", "bottling": "7", "jars": 870, "mean_net_mg": 502_400, "rejects": 9},
            bottling.Bottle(CODES["bottling 7"], 870, 502_400, 9),
        ),
        (
            "bottling",
            {"what": "end", "bottling": "7", "jars": 870, "labelled_later": True},
            bottling.Bottle(CODES["bottling 7"], 870, in_line=False),
        ),
        (
            "returns",
            {"what": "came back", "customer": "A", "goods": "bottling 7", "jars": 24},
            dispatch.TakeBack("A", CODES["bottling 7"], "", 24),
        ),
        (
            "returns",
            {"what": "thrown away", "goods": "bottling 7", "jars": 4, "reason": "glass"},
            dispatch.Discard(CODES["bottling 7"], "glass", 4),
        ),
        (
            "quality",
            {"what": "hold", "target": "Oatfell", "reason": "x", "first_day": date(2026, 9, 1)},
            quality.PutOnHold("Oatfell", "x", "2026-09-01"),
        ),
        (
            "quality",
            {"what": "clear", "target": "drum 45", "hold": "unknown 1", "result": "none"},
            quality.Clear(CODES["drum 45"], CODES["unknown 1"], "none"),
        ),
        (
            "quality",
            {"what": "release", "target": "unknown 1", "reason": "found"},
            quality.Release(CODES["unknown 1"], "found"),
        ),
        (
            "quality",
            {"what": "sample", "target": "drum 45 + barrel 3", "net_g": 250, "kept_at": "shelf"},
            quality.Sample((CODES["drum 45"], CODES["barrel 3"]), 250, "shelf"),
        ),
        (
            "corrections",
            {"what": "amend", "lot": "unknown 1", "pallet": "12", "reason": "found"},
            corrections.Amend(CODES["unknown 1"], "found", pallet=CODES["pallet 12"]),
        ),
        (
            "corrections",
            {"what": "amend", "lot": "Oatfell on pallet 12", "yard": "Pikestaff", "reason": "x"},
            corrections.Amend(CODES["Oatfell on pallet 12"], "x", yard="Pikestaff"),
        ),
        (
            "corrections",
            {"what": "narrow", "lot": "unknown 1", "place": "Oatfell", "reason": "seen"},
            corrections.Narrow(CODES["unknown 1"], "seen", place="Oatfell"),
        ),
        (
            "corrections",
            {"what": "reverse", "lot": "drum 45", "reason": "twice"},
            corrections.Reverse(4, "twice"),
        ),
    ],
)
def test_a_row_is_a_verbs_facts(file: str, row: Mapping[str, Any], facts: object) -> None:
    assert step(file, row).facts == facts


def test_rows_of_a_run_carry_its_code_but_its_opening_does_not() -> None:
    load = {"what": "load", "run": "5", "vessel": "Line A", "pallet": "12"}
    assert step("floor", load).run == CODES["run 5"]
    assert step("floor", {"what": "open", "run": "6", "vessel": "Line A"}).run == ""


def test_the_rows_of_a_note_are_one_dispatch() -> None:
    first = {"note": "3", "customer": "A", "goods": "bottling 7", "jars": 24}
    second = {"note": "3", "goods": "drum 45", "carrier": "not this one's"}
    one = step("dispatch", first, second)
    assert one.facts == dispatch.Dispatch(
        "A",
        (
            dispatch.DispatchLine(CODES["bottling 7"], 24),
            dispatch.DispatchLine(CODES["drum 45"]),
        ),
    )
    assert one.gives == (("note 3", "N"),)


@pytest.mark.parametrize(
    "file", ["pallets", "floor", "drums", "bottling", "returns", "quality", "corrections"]
)
def test_what_is_never_done_is_refused(file: str) -> None:
    with pytest.raises(Refusal) as refused:
        step(file, {"what": "dance"})
    assert refused.value.text == "“dance” is nothing that is done here."


def test_names_learn_the_codes_an_entry_gave() -> None:
    house = BuiltHouse()
    yard = house.yard("Oatfell")
    facts = dock.Receive((dock.Line(yard, 20),))
    done = house.do(facts)
    known = Names()
    known.learn(Step(facts, gives=(("pallet 1", "G"),), pulls=("Oatfell on pallet 1",)), done)
    assert [known.code("Pallet 1"), known.code("oatfell ON pallet 1")] == list(done.given)
    assert known.entry("pallet 1") == done.entries[0].id
    assert known.code("Tank 1") == "Tank 1"
    assert known.entry("Tank 1") == 0


def test_several_names_for_one_letter_stand_for_one_code_each() -> None:
    house = BuiltHouse()
    yard = house.yard("Oatfell")
    done = house.do(dock.Receive((dock.Line(yard, 20), dock.Line(yard, 4))))
    known = Names()
    known.learn(Step(None, gives=(("first", "S"), ("second", "S")), called="the truck"), done)
    pulls = [code for code in done.given if code[0] == "S"]
    assert [known.code("first"), known.code("second")] == pulls
    assert known.entry("the truck") == done.entries[0].id
    known.learn(Step(None, gives=(("last", "S"),)), done)
    assert known.code("last") == pulls[-1]


def test_a_drum_that_was_found_is_not_honey_that_turned_up_in_a_run() -> None:
    house = BuiltHouse()
    known = Names()
    facts = opening.FoundDrum(Weight(net_g=288_000))
    known.learn(Step(facts, gives=(("found", "D"),)), house.do(facts))
    assert known.code("unknown 1") == "unknown 1"
    assert known.code("found")[0] == "D"


def test_honey_of_unknown_source_is_numbered_as_it_turns_up() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank")
    known = Names()
    for _ in range(2):
        facts = drums.Fill(tank, Weight(net_g=100_000))
        known.learn(Step(facts), house.do(facts))
        house.wash(tank)
    assert known.code("unknown 1")[0] == known.code("unknown 2")[0] == "S"
    assert known.code("unknown 1") != known.code("unknown 2")
