"""The smaller forms of the floor: the facts each says."""

from datetime import date
from typing import Any

import pytest

from honeyledger.desktop.models.asked import FormSpec, FormTyped, Reading
from honeyledger.desktop.stations.extraction.more_asks import TAKEN, more_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.by_products import Cut, Melt
from honeyledger.ledger.verbs.drums import Bung, Fill, Skim
from honeyledger.ledger.verbs.owners import Pool

READING = Reading("kg", date(2026, 7, 24))
TANK, DRUM, TAG = "E26-0002-U", "E26-0003-S", "G26-0001-7"


def _spec(kind: str) -> FormSpec:
    return next(one for one in more_forms() if one.key == kind)


@pytest.mark.parametrize(
    ("kind", "values", "facts"),
    [
        ("skim", {"source": TANK, "net_g": "5,5"}, Skim(TANK, 5_500)),
        (
            "draw",
            {"source": TANK, "into": DRUM, "net_g": "200"},
            Fill(TANK, Weight(net_g=200_000), into=DRUM),
        ),
        (
            "draw",
            {"source": TANK, "into": DRUM, "despite_hold": "to be dried"},
            Fill(TANK, into=DRUM, whole=True, despite_hold="to be dried"),
        ),
        ("bung", {"container": DRUM}, Bung(DRUM)),
        ("bung", {"container": DRUM, "seal": "A 104"}, Bung(DRUM, "A 104")),
        (
            "melt",
            {
                "vessel": TANK,
                "temperature": "72",
                "wax_g": "14.2",
                "honey_g": "9.5",
                "residue_g": "1.1",
                "into": DRUM,
                "goes_on": "yes",
            },
            Melt(TANK, 14_200, 9_500, 1_100, DRUM, 720, goes_on=True),
        ),
        ("melt", {"vessel": TANK, "wax_g": "3", "goes_on": "no"}, Melt(TANK, 3_000)),
        (
            "cut",
            {
                "pallet": TAG,
                "count": "4",
                "pieces": "120",
                "net_g": "40,5",
                "product": "comb-340-g",
                "drained_g": "2",
                "into": TANK,
                "trimmings_g": "3",
                "trimmings_into": DRUM,
                "rejects_g": "0.5",
            },
            Cut(
                *(TAG, 120, 40_500, 4, "", "comb-340-g", 2_000, TANK, 3_000, DRUM, 500),
            ),
        ),
        ("pool", {"run": "R26-0001-N", "agreement": "spring"}, Pool("spring", "R26-0001-N")),
    ],
)
def test_each_form_says_its_facts(kind: str, values: dict[str, str], facts: Any) -> None:
    assert _spec(kind).facts(FormTyped(values), READING) == [facts]


def test_every_form_takes_a_scan() -> None:
    assert set(TAKEN) == {spec.key for spec in more_forms()}


def test_why_held_honey_goes_on_is_asked_once_something_is_named() -> None:
    (held,) = (ask for ask in _spec("draw").asks() if ask.key == "despite_hold")
    assert held.shown is not None
    assert not held.shown(FormTyped(), READING)
    assert held.shown(FormTyped({"source": TANK}), READING)


def test_heat_comes_with_its_caution() -> None:
    assert _spec("melt").step == (
        "Hot wax scalds and burns: never over a flame. Honey from under it is heated honey."
    )


@pytest.mark.parametrize(
    ("kind", "values", "field"),
    [
        ("skim", {"source": TANK, "net_g": "much"}, "net_g"),
        ("cut", {"pallet": TAG, "pieces": "some"}, "pieces"),
        ("melt", {"vessel": TANK, "temperature": "hot"}, "temperature"),
    ],
)
def test_what_cannot_be_read_names_its_field(
    kind: str, values: dict[str, str], field: str
) -> None:
    with pytest.raises(Refusal) as refused:
        _spec(kind).facts(FormTyped(values), READING)
    assert refused.value.field == field
