"""Rows of the sample's other logs as the facts of verbs: yards, rooms, comb, jars, bulk trade."""

from collections.abc import Mapping
from typing import Any

import pytest

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_steps import Names, Step
from honeyledger.exchange.season_works import WORKS
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs import (
    blending,
    bought_in,
    by_products,
    checks,
    dock,
    hot_room,
    jars,
    opening,
    owners,
    packing,
    stocktake,
    supplies,
    trade,
    warming,
    yards,
)
from tests.support.houses import BuiltHouse

CODES = {
    "run 5": "R26-0005-P",
    "pallet 12": "G26-0012-2",
    "drum 45": "D26-0045-P",
    "drum 46": "D26-0046-N",
    "bottling 7": "J26-0007-9",
    "comb 1": "K26-0001-R",
    "labels 1": "A26-0004-B",
    "case 1 of bottling 7": "C26-0001-R",
    "case 2 of bottling 7": "C26-0002-P",
    "note truck": "N26-0033-B",
    "sample for Corvane": "X26-0006-W",
}


def names() -> Names:
    known = Names()
    for at, (name, code) in enumerate(CODES.items(), 1):
        known.give(name, code, at)
    return known


def step(file: str, *rows: Mapping[str, Any]) -> Step:
    return WORKS[file]([Row(at, row) for at, row in enumerate(rows, 2)], names())


@pytest.mark.parametrize(
    ("file", "row", "facts"),
    [
        (
            "opening",
            {"lot": "old 1", "net_g": 290_000, "season": 2025, "yards": "Oatfell 60 + Ada 40"},
            opening.OpeningStock(
                Weight(net_g=290_000), 2025, (Part("Oatfell", 600), Part("Ada", 400))
            ),
        ),
        (
            "opening",
            {"lot": "old 2", "net_g": 1, "season": 2025, "yards": "Old Mill + Ada", "moisture": 1},
            opening.OpeningStock(
                Weight(net_g=1), 2025, (Part("Old Mill"), Part("Ada")), moisture=1
            ),
        ),
        (
            "yard_log",
            {"what": "supers on", "yard": "Ada", "supers": 30, "day": "2026-06-20", "box": "deep"},
            yards.SupersOn("Ada", 30, "2026-06-20", "deep"),
        ),
        (
            "yard_log",
            {"what": "treated", "yard": "Ada", "product": "pads", "on_the_hives": False},
            yards.Treat("Ada", "pads", supers_on=False),
        ),
        (
            "yard_log",
            {"what": "fed", "yard": "Ada", "product": "syrup", "net_g": 9, "on_the_hives": False},
            yards.FeedYard("Ada", "syrup", net_g=9, supers_on=False),
        ),
        (
            "yard_log",
            {"what": "flagged", "yard": "Ada", "product": "chalkbrood", "day": "2026-07-02"},
            yards.Disease("Ada", "chalkbrood", "2026-07-02"),
        ),
        (
            "yard_log",
            {"what": "certificate", "yard": "Ada", "number": "MV 1", "issued_by": "inspector"},
            yards.Certify("Ada", "MV 1", "inspector"),
        ),
        (
            "rooms_log",
            {"what": "air", "room": "Hot room", "temperature": 340, "humidity": 4_100},
            hot_room.RoomLog("Hot room", 340, 4_100),
        ),
        (
            "rooms_log",
            {
                "what": "dried",
                "room": "Hot",
                "things": "pallet 12",
                "before": 1_800,
                "after": 1_750,
            },
            hot_room.Dry(CODES["pallet 12"], 1_800, 1_750, room="Hot"),
        ),
        (
            "rooms_log",
            {"what": "warmed", "things": "drum 45", "temperature": 380, "minutes": 1_440},
            warming.Warm(CODES["drum 45"], 380, 1_440),
        ),
        (
            "rooms_log",
            {"what": "carried", "room": "Store", "row": "B", "things": "drum 45 + drum 46"},
            stocktake.Move((CODES["drum 45"], CODES["drum 46"]), "Store", "B"),
        ),
        (
            "rooms_log",
            {"what": "walked", "room": "Store", "row": "B", "things": "drum 45", "found_g": 7},
            stocktake.Stocktake(
                "Store", "B", (CODES["drum 45"],), (opening.FoundDrum(Weight(net_g=7)),)
            ),
        ),
        (
            "rooms_log",
            {"what": "walked", "room": "Store", "row": "B", "things": "drum 45"},
            stocktake.Stocktake("Store", "B", (CODES["drum 45"],)),
        ),
        (
            "rooms_log",
            {"what": "checked", "equipment": "Scale", "checked": "20 kg", "value": "20.0"},
            checks.Check("Scale", "20 kg", "ok", "20.0"),
        ),
        (
            "comb",
            {
                "what": "cut",
                "lot": "comb 1",
                "pallet": "12",
                "supers": 7,
                "pieces": 160,
                "net_g": 5,
            },
            by_products.Cut(CODES["pallet 12"], 160, 5, 7),
        ),
        (
            "comb",
            {"what": "chunk", "product": "C", "comb": "comb 1", "source": "Table", "pieces": 2},
            by_products.Chunk("C", CODES["comb 1"], 2, "Table", 0),
        ),
        (
            "supplies",
            {"lot": "lids 1", "supplier": "Tewkle", "name": "lids", "pieces": 900},
            supplies.Supply("Tewkle", "packaging", "lids", count=900),
        ),
        (
            "jars",
            {"what": "label", "lot": "bottling 7", "jars": 9, "packaging": "labels 1", "torn": 2},
            jars.LabelJars(CODES["bottling 7"], 9, torn=2, packaging=(CODES["labels 1"],)),
        ),
        (
            "jars",
            {"what": "case", "lot": "bottling 7", "jars": 12, "copies": 2},
            packing.Pack((packing.PackLine(CODES["bottling 7"], 12),), 2),
        ),
        (
            "jars",
            {"what": "pallet", "lot": "bottling 7", "copies": 2},
            packing.Pack((packing.PackLine("C26-0001-R"), packing.PackLine("C26-0002-P"))),
        ),
        (
            "jars",
            {"what": "complaint", "lot": "bottling 7", "jar": 107, "said": "set", "who": "A"},
            jars.Complain("J26-0007-00107-7", "set", "A"),
        ),
        (
            "bulk",
            {"what": "judged", "of": "sample for Corvane", "verdict": "approved"},
            trade.Approve(CODES["sample for Corvane"], "approved"),
        ),
        (
            "bulk",
            {"what": "buyer's weight", "of": "note truck", "net_g": 19, "reference": "T 1"},
            trade.BuyersWeight(CODES["note truck"], Weight(net_g=19), reference="T 1"),
        ),
        (
            "bulk",
            {"what": "title", "of": "drum 45", "customer": "A", "document": "invoice 1"},
            trade.TransferTitle((CODES["drum 45"],), "A", "invoice 1"),
        ),
        (
            "bulk",
            {"what": "empties", "customer": "A", "containers": "Tote 1 + Tote 2"},
            trade.Empties("A", ("Tote 1", "Tote 2")),
        ),
        (
            "bulk",
            {"what": "sent back", "of": "drum 45", "reason": "wet"},
            bought_in.SendBack((CODES["drum 45"],), "wet"),
        ),
        (
            "bulk",
            {"what": "settled", "of": "run 5", "customer": "A", "containers": "drum 45"},
            owners.Settle(CODES["run 5"], 0, ((CODES["drum 45"], "A"),)),
        ),
    ],
)
def test_a_row_is_a_verbs_facts(file: str, row: Mapping[str, Any], facts: object) -> None:
    assert step(file, row).facts == facts


def test_the_rows_of_a_blend_are_its_parts() -> None:
    first = {"blend": "1", "into": "Tank", "purpose": "cream", "source": "drum 45", "whole": True}
    second = {
        "blend": "1",
        "source": "drum 46",
        "net_g": 27_200,
        "planned_g": 27_000,
        "seed": True,
    }
    assert step("blends", first, second).facts == blending.Blend(
        "Tank",
        (
            blending.Portion(CODES["drum 45"], whole=True),
            blending.Portion(CODES["drum 46"], Weight(net_g=27_200), 27_000, seed=True),
        ),
        "cream",
    )


def test_an_answer_belongs_to_the_complaint_before() -> None:
    row = {"lot": "bottling 7", "jar": 107, "said": "set"}
    first = step("jars", {"what": "complaint", **row})
    known = names()
    house = BuiltHouse()
    house.yard("Ada")
    known.learn(first, house.do(dock.Receive((dock.Line("Ada", 1),))))
    rows = [Row(2, {"what": "answer", "answer": "a new jar", **row})]
    answer = WORKS["jars"](rows, known).facts
    assert answer.completes == known.entry("complaint of bottling 7") > 0
    assert answer.answer == "a new jar"


def test_a_jar_by_its_own_code_has_no_serial_besides() -> None:
    row = {"what": "complaint", "lot": "J26-0007-00107-7", "jar": 3, "said": "set"}
    with pytest.raises(BrokenRule):
        step("jars", row)


def test_cases_are_named_one_by_one_and_the_pallet_by_its_lot() -> None:
    cases = step("jars", {"what": "case", "lot": "bottling 7", "jars": 12, "copies": 2})
    assert cases.gives == (("case 1 of bottling 7", "C"), ("case 2 of bottling 7", "C"))
    pallet = step("jars", {"what": "pallet", "lot": "bottling 7", "copies": 2})
    assert pallet.gives == (("shipping pallet of bottling 7", "L"),)


@pytest.mark.parametrize("file", ["yard_log", "rooms_log", "comb", "jars", "bulk"])
def test_what_is_never_done_is_refused(file: str) -> None:
    with pytest.raises(Refusal) as refused:
        step(file, {"what": "dance", "of": "drum 45"})
    assert refused.value.text == "“dance” is nothing that is done here."
