"""Settling a run with its owners: the facts the form says."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, LineTyped, Reading
from honeyledger.desktop.stations.extraction.settle_asks import settle_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.owners import Settle

READING = Reading("kg", date(2026, 7, 24))
RUN, DRUM = "R26-0001-N", "D26-0001-G"


def test_the_toll_is_typed_in_per_cent_and_drums_have_their_owners() -> None:
    typed = FormTyped(
        {"run": RUN, "kept": "12,5 %", "note": "by telephone"},
        (LineTyped(DRUM, {"owner": "A. Wendt"}),),
    )
    assert settle_form().facts(typed, READING) == [
        Settle(RUN, 125, ((DRUM, "A. Wendt"),), "by telephone")
    ]
    assert settle_form().facts(FormTyped({"run": RUN}), READING) == [Settle(RUN)]


def test_a_drum_without_an_owner_is_asked_about() -> None:
    with pytest.raises(Refusal) as refused:
        settle_form().facts(FormTyped({"run": RUN}, (LineTyped(DRUM),)), READING)
    assert refused.value.field == f"owner@{DRUM}"
    assert refused.value.text == (f"Say whose {DRUM} becomes: the owner's name, or take it off.")
