"""What a sum is made of."""

from honeyledger.desktop.models.asked import Ask, FormTyped
from honeyledger.desktop.stations.calculator.sums import (
    Reckoned,
    Sum,
    from_memory,
    second_hand,
    typed_all,
)


def test_a_sum_begins_with_what_is_usual_and_knows_its_fields() -> None:
    rows = ((Ask("net", "Net"), Ask("degrees", "Degrees", usual="20")),)
    one = Sum(
        "a", "A", "Type it.", rows, typed_all("net"), lambda *_: Reckoned(()), (("mass", "net"),)
    )
    assert one.begins() == FormTyped({"degrees": "20"})
    assert [ask.key for ask in one.asks()] == ["net", "degrees"]
    assert (one.field_of("mass"), one.field_of("degrees")) == ("net", "degrees")
    assert not one.needs(one.begins())
    assert one.needs(FormTyped({"net": "3"}))


def test_what_is_not_sure_is_called_so() -> None:
    assert (second_hand(), from_memory()) == (
        "seen at second hand: a guide, no promise",
        "value from memory: not to be relied on",
    )
