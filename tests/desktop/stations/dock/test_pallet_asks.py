"""The smaller forms of the dock: the facts each says."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, Reading
from honeyledger.desktop.stations.dock.pallet_asks import pallet_forms
from honeyledger.desktop.stations.dock.words import TAKEN
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dock import Count, Join, Split

READING = Reading("kg", date(2026, 7, 24))
TAG, OTHER, PULL = "G26-0001-7", "G26-0002-5", "S26-0001-J"
FORMS = pallet_forms(lambda _code: None)


def _spec(kind: str) -> FormSpec:
    return next(one for one in FORMS if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts"),
    [
        ("split", {"pallet": TAG, "count": "12"}, Split(TAG, 12)),
        ("split", {"pallet": TAG, "count": "12", "pull": PULL}, Split(TAG, 12, PULL)),
        ("join", {"pallet": TAG, "onto": OTHER}, Join(TAG, OTHER)),
        ("count", {"pallet": TAG, "count": "35"}, Count(TAG, 35)),
        (
            "buy",
            {"supplier": "Hollow Bees", "gross_g": "318", "tare_g": "18", "country": "Canada"},
            Purchase("Hollow Bees", Weight(gross_g=318_000, tare_g=18_000), country="Canada"),
        ),
        (
            "buy",
            {
                "supplier": "Hollow Bees",
                "net_g": "300",
                "supplier_lot": "HB 7",
                "certificate": "C 12",
                "floral": "acacia",
                "container": "E26-0001-X",
                "owner": "Ms Orla",
            },
            Purchase(
                *("Hollow Bees", Weight(net_g=300_000), "HB 7", "", "E26-0001-X", "Ms Orla"),
                certificate="C 12",
                floral="acacia",
            ),
        ),
    ],
)
def test_each_form_says_its_facts(kind: str, values: dict[str, str], facts: Any) -> None:
    assert _spec(kind).facts(FormTyped(values), READING) == [facts]


def test_every_form_takes_a_scan() -> None:
    assert set(TAKEN) == {spec.key for spec in FORMS}


@pytest.mark.parametrize("kind", ["split", "count"])
def test_a_count_is_asked_for_in_its_field(kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        _spec(kind).facts(FormTyped({"pallet": TAG}), READING)
    assert refused.value.field == "count"
