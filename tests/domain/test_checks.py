"""When a check is due: intervals, what was found off, a house's own list; dates only."""

from datetime import date

import pytest

from honeyledger.domain.checks import (
    ListedCheck,
    Made,
    State,
    check_named,
    due_day,
    every_words,
    state_of,
    with_own,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.withholding import parse_interval

TODAY = date(2026, 7, 24)


def _check(key: str, every: str = "1 week", name: str = "") -> ListedCheck:
    return ListedCheck(key, name or key.title(), "Look.", parse_interval(every))


@pytest.mark.parametrize(
    ("last_right", "every", "state"),
    [
        (date(2026, 7, 24), "1 day", State.IN_ORDER),
        (date(2026, 7, 23), "1 day", State.DUE),
        (date(2026, 7, 22), "1 day", State.OVERDUE),
        (date(2026, 7, 17), "1 week", State.DUE),
        (date(2026, 7, 18), "1 week", State.IN_ORDER),
        (date(2026, 6, 24), "1 month", State.DUE),
        (date(2026, 6, 23), "1 month", State.OVERDUE),
    ],
)
def test_a_check_is_due_on_its_day_and_overdue_after_it(
    last_right: date, every: str, state: State
) -> None:
    due = due_day(_check("pests", every), last_right)
    assert state_of(Made(last_right, True), due, TODAY) is state


def test_what_was_never_made_or_found_off_needs_a_person() -> None:
    assert state_of(None, None, TODAY) is State.NEVER
    assert due_day(_check("pests"), None) is None
    assert state_of(Made(TODAY, False), date(2026, 8, 1), TODAY) is State.OFF
    assert [one.needs_a_person for one in State] == [True, True, True, True, False]


def test_a_house_s_own_check_stands_over_the_one_it_came_with() -> None:
    shipped = (_check("pests"), _check("glass"), _check("water"))
    own = (_check("pests", "2 weeks"), _check("bees"))
    found = with_own(shipped, own, left_out=("water", "none such"))
    assert [(one.key, every_words(one.every)) for one in found] == [
        ("pests", "every 2 weeks"),
        ("glass", "every week"),
        ("bees", "every week"),
    ]


def test_how_often_in_words() -> None:
    texts = ("1 day", "3 days", "1 month", "12 months")
    assert [every_words(parse_interval(text)) for text in texts] == [
        "every day",
        "every 3 days",
        "every month",
        "every 12 months",
    ]


def test_a_check_is_meant_by_its_key_or_its_name() -> None:
    checks = [_check("glass", name="Glass and brittle plastic"), _check("pests")]
    assert check_named(checks, "GLASS").key == "glass"
    assert check_named(checks, "glass and  brittle plastic").key == "glass"
    with pytest.raises(Refusal) as refused:
        check_named(checks, "brittle")
    assert refused.value.text == (
        "brittle is no check of this house. Choose one of the list: Glass and brittle plastic, "
        "Pests."
    )
    assert refused.value.offers == ("Glass and brittle plastic",)
