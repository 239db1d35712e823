"""The forms behind the filler: the facts each says, and what cannot be read."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, LineTyped, Reading
from honeyledger.desktop.stations.bottling.after_asks import after_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.ledger.verbs.jars import LabelJars
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.quality import Sample

READING = Reading("kg", date(2026, 7, 24))
LOT, OTHER = "J26-0001-L", "J26-0002-J"


def _spec(kind: str) -> FormSpec:
    return next(one for one in after_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts"),
    [
        ("label", {"lot": LOT, "jars": "240"}, LabelJars(LOT, 240)),
        (
            "label",
            {
                "lot": LOT,
                "jars": "240",
                "product": "summer-500-g",
                "roll_first": "1 001",
                "roll_last": "1245",
                "seal_first": "S100",
                "seal_last": "S339",
                "torn": "5",
                "packaging": "A26-0001-K, A26-0002-H; A26-0001-K",
            },
            LabelJars(
                *(LOT, 240, "summer-500-g", 1001, 1245, 5, "S100", "S339"),
                ("A26-0001-K", "A26-0002-H"),
            ),
        ),
        (
            "keep",
            {"lot": LOT, "net": "500", "kept": "shelf 4"},
            Sample((LOT,), 500, "shelf 4", "retained"),
        ),
        ("claims", {"lot": LOT, "reason": "typed wrongly"}, JudgeClaims(LOT, "typed wrongly")),
        ("unpack", {"code": "C26-0001-X", "reason": "broken"}, Unpack("C26-0001-X", "broken")),
    ],
)
def test_each_form_says_its_facts(kind: str, values: dict[str, str], facts: Any) -> None:
    assert _spec(kind).facts(FormTyped(values), READING) == [facts]


def test_a_case_holds_so_many_of_each_lot_and_a_pallet_holds_cases() -> None:
    lines = (LineTyped(LOT, {"pieces": "8"}), LineTyped(OTHER, {"pieces": "4"}))
    assert _spec("pack").facts(FormTyped({"copies": "20"}, lines), READING) == [
        Pack((PackLine(LOT, 8), PackLine(OTHER, 4)), 20)
    ]
    cases = (LineTyped("C26-0001-X"), LineTyped("C26-0002-V"))
    assert _spec("pack").facts(FormTyped({}, cases), READING) == [
        Pack((PackLine("C26-0001-X"), PackLine("C26-0002-V")))
    ]


@pytest.mark.parametrize(
    ("kind", "values", "field"),
    [
        ("label", {"lot": LOT}, "jars"),
        ("label", {"lot": LOT, "jars": "10", "torn": "some"}, "torn"),
        ("keep", {"lot": LOT}, "net_g"),
        ("pack", {"copies": "few"}, "copies"),
    ],
)
def test_what_cannot_be_read_names_its_field(
    kind: str, values: dict[str, str], field: str
) -> None:
    with pytest.raises(Refusal) as refused:
        _spec(kind).facts(FormTyped(values), READING)
    assert refused.value.field == field
