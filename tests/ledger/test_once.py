"""What stands twice on a list is refused, whoever asks."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.once import check_once


def test_each_once_is_fine_and_a_second_time_is_not() -> None:
    check_once([], "lines")
    check_once(["D26-0001-X", "D26-0002-X"], "lines")
    with pytest.raises(Refusal) as refusal:
        check_once(["D26-0001-X", "D26-0002-X", "D26-0001-X"], "lines")
    assert refusal.value.field == "lines"
    with pytest.raises(Refusal) as named:
        check_once(["drum/7", "vessel/7", "drum/7"], "parts", lambda one: one.upper())
    assert named.value.text.startswith("DRUM/7 stands twice")
    assert refusal.value.text == (
        "D26-0001-X stands twice on this list. Leave it there once, with its whole amount."
    )
