"""Narrowing as its form says it."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.entries.narrow_asks import narrow_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.corrections import Narrow

READING = Reading("kg", date(2026, 7, 24))
LOT = "T26-0002-4"


def test_a_row_goes_by_entry_and_line_and_a_place_by_its_key() -> None:
    typed = FormTyped({"lot": LOT, "row": "214 2", "reason": "washed"})
    assert narrow_form().facts(typed, READING) == [Narrow(LOT, "washed", 214, 2)]
    typed = FormTyped({"lot": LOT, "row": "Y26-0001-9", "reason": "misread"})
    assert narrow_form().facts(typed, READING) == [Narrow(LOT, "misread", place="Y26-0001-9")]


def test_what_is_not_in_it_has_to_be_chosen() -> None:
    with pytest.raises(Refusal) as refused:
        narrow_form().facts(FormTyped({"lot": LOT}), READING)
    assert refused.value.field == "row"
    assert refused.value.text == ("Choose what is not in it: only what is there at 0 g can go.")
