"""Rows of the sample's laboratory book as the facts of verbs."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import Row
from honeyledger.exchange.season_laboratory import COLUMNS, LABORATORY
from honeyledger.exchange.season_steps import Names, Step
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Reported


def made(**cells: object) -> Step:
    names = Names()
    names.give("drum 45", "D26-0045-P")
    empty = dict.fromkeys((name.replace(" ", "_") for name in COLUMNS), "")
    row = Row(2, {**empty, "moisture": None, **cells})
    return LABORATORY["laboratory"]((row,), names)


def test_results_keep_what_was_reported_with_its_papers() -> None:
    papers = {"laboratory": "Bench", "report": "26-118", "sampled": "2026-08-25"}
    step = made(what="result", lot="drum 45", moisture=17_40, hmf="<5", free_acid="14.2", **papers)
    assert step.facts == Measure(
        "D26-0045-P",
        moisture=17_40,
        results=(Reported("hmf", "<5"), Reported("free acid", "14.2")),
        laboratory="Bench",
        report="26-118",
        sampled="2026-08-25",
    )


def test_a_calibration_is_of_an_instrument() -> None:
    step = made(what="calibrated", instrument="R 2", known="18.0", read="17.6", against="oil")
    assert step.facts == Calibrate("R 2", 18_00, 17_60, against="oil")
    with pytest.raises(Refusal) as caught:
        made(what="guessed")
    assert caught.value.key == "no-such-step"
