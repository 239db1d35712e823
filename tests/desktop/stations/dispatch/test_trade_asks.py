"""The forms of bulk trade: the facts each says, and what it says when it is recorded."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, Reading
from honeyledger.desktop.stations.dispatch.trade_asks import TAKEN, trade_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, Empties, TransferTitle

READING = Reading("kg", date(2026, 7, 24))
SAMPLE, DRUM, OTHER, NOTE = "X26-0001-V", "D26-0001-C", "D26-0002-A", "N26-0001-R"


def _spec(kind: str) -> FormSpec:
    return next(one for one in trade_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts"),
    [
        ("judged", {"sample": SAMPLE, "verdict": "approved"}, Approve(SAMPLE, "approved")),
        (
            "judged",
            {
                "sample": SAMPLE,
                "verdict": "refused",
                "reason": "HMF 44",
                "reference": "L-88",
                "customer": "Packer",
            },
            Approve(SAMPLE, "refused", "HMF 44", "L-88", "Packer"),
        ),
        (
            "scale",
            {"of": NOTE, "net_g": "19 311,2", "reference": "T 17"},
            BuyersWeight(NOTE, Weight(net_g=19_311_200), "", "T 17"),
        ),
        (
            "scale",
            {"of": DRUM, "gross_g": "306", "tare_g": "17", "customer": "Packer"},
            BuyersWeight(DRUM, Weight(gross_g=306_000, tare_g=17_000), "Packer"),
        ),
        (
            "empties",
            {"customer": "Packer", "containers": "E26-0001-X, E26-0002-V", "kept": ""},
            Empties("Packer", ("E26-0001-X", "E26-0002-V")),
        ),
        (
            "title",
            {"lots": f"{DRUM}, {OTHER}", "owner": "Packer", "document": "INV 12"},
            TransferTitle((DRUM, OTHER), "Packer", "INV 12"),
        ),
        (
            "complaint",
            {"code": "J26-0004-00382-F", "what": "a splinter", "who": "Ms Orla"},
            Complain("J26-0004-00382-F", "a splinter", "Ms Orla"),
        ),
    ],
)
def test_each_form_says_its_facts(kind: str, values: dict[str, str], facts: Any) -> None:
    assert _spec(kind).facts(FormTyped(values), READING) == [facts]


def test_every_form_takes_a_scan() -> None:
    assert set(TAKEN) == {spec.key for spec in trade_forms()}
    assert all(any(ask.key == spec.scan for ask in spec.asks()) for spec in trade_forms())


def test_why_a_sample_was_refused_is_asked_only_then() -> None:
    (reason,) = (ask for ask in _spec("judged").asks() if ask.key == "reason")
    assert reason.shown is not None
    assert not reason.shown(FormTyped({"verdict": "approved"}), READING)
    assert reason.shown(FormTyped({"verdict": "refused"}), READING)


def test_a_weight_that_cannot_be_read_names_its_field() -> None:
    with pytest.raises(Refusal) as refused:
        _spec("scale").facts(FormTyped({"of": NOTE, "gross_g": "12 stone"}), READING)
    assert refused.value.field == "gross_g"
