"""How columns were set holds by their keys, and what cannot be read is as if it were not set."""

import json

import pytest

from honeyledger.desktop.models.column_choices import WIDEST, ColumnChoices, choices_of

KEYS = ["code", "state", "name", "net"]


def test_columns_move_and_the_first_one_stays_first() -> None:
    moved = ColumnChoices().moved(KEYS, "net", 1)
    assert moved.keys_in_order(KEYS) == ["code", "net", "state", "name"]
    assert moved.moved(KEYS, "net", 9).keys_in_order(KEYS) == KEYS
    assert moved.moved(KEYS, "net", 0).keys_in_order(KEYS)[0] == "code"
    assert moved.moved(KEYS, "code", 3) == moved


def test_a_new_column_stands_where_its_station_puts_it_and_a_lost_one_is_passed_over() -> None:
    kept = ColumnChoices(order=("code", "net", "old", "name", "state"))
    keys = ["code", "age", "state", "name", "net"]
    assert kept.keys_in_order(keys) == ["code", "age", "net", "name", "state"]
    assert ColumnChoices(order=("net", "code")).keys_in_order(KEYS)[0] == "code"


def test_widths_have_a_bound_and_go_away() -> None:
    wide = ColumnChoices().with_width("name", 9_999)
    assert wide.widths == {"name": WIDEST}
    assert wide.with_width("name", 0).are_none
    assert not ColumnChoices().with_shown("net", False).are_none


def test_what_is_kept_is_read_again() -> None:
    made = ColumnChoices().with_shown("net", False).with_width("name", 200).moved(KEYS, "net", 1)
    assert choices_of(json.loads(json.dumps(made.as_plain()))) == made


@pytest.mark.parametrize(
    "kept",
    [
        None,
        [],
        {"shown": 1, "order": "code", "widths": []},
        {"shown": {"net": "yes"}, "order": [3], "widths": {"net": "wide"}},
        {"widths": {"net": True, "name": -4}},
    ],
)
def test_what_cannot_be_read_was_not_set(kept: object) -> None:
    assert choices_of(kept).are_none
