"""What stands on a pallet tag."""

from dataclasses import replace
from typing import Any

import pytest

from honeyledger.documents.labels import pallet_tags
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.units import MassUnit
from tests.support import printing


def _print(unit: MassUnit = "kg", stock: str = "roll-100x150", **changes: Any) -> bytes:
    sheet = printing.stocks().named(stock)
    row = printing.pallet_tag(**changes)
    return pallet_tags([row], sheet, plain_printer(sheet), printing.typefaces(), unit=unit)


def test_a_tag_says_what_stands_on_the_pallet() -> None:
    text = printing.text_of(_print())
    for said in (
        printing.HOUSE,
        "Received 2026-07-15",
        "117",
        "supers from 2 yards",
        "Gross",
        "1 912.5 kg",
        "Moisture",
        "18.9 %",
        "Condition",
        "mixed",
        "Long Meadow north",
        printing.code("Y", 14),
        "pulled 2026-07-14",
        "64",
        "Brickyard Hill",
        printing.code("Y", 21),
        "pulled 2026-07-15",
        "53",
    ):
        assert said in text, said


def test_weights_are_in_the_houses_unit() -> None:
    assert "4 216.3 lb" in printing.text_of(_print("lb"))


def test_dry_first_is_a_word_and_a_shape_and_absent_when_it_need_not() -> None:
    wet, dry = _print(), _print(dry_first=False)
    assert "Dry first" in printing.text_of(wet)
    assert "Dry first" not in printing.text_of(dry)
    # The band is 13 mm high, black but for its words and mark; without it only rules are black.
    assert _black_rows(wet) - _black_rows(dry) >= 12 * 203 / 25.4


def _black_rows(pdf: bytes) -> int:
    image = printing.raster(pdf, 203)
    width, dots = image.size[0], image.tobytes()
    rows = [dots[start : start + width] for start in range(0, len(dots), width)]
    return sum(row.count(0) > 0.55 * width for row in rows)


def test_one_super_from_one_yard_is_said_so() -> None:
    (pull, _) = printing.pallet_tag().pulls
    assert "super from one yard" in printing.text_of(_print(pulls=(replace(pull, supers=1),)))


def test_what_was_not_read_is_left_out_and_what_was_not_weighed_can_be_written() -> None:
    text = printing.text_of(_print(moisture_hundredths=None, gross_g=None))
    assert "Moisture" not in text
    assert "Gross" in text
    assert "kg" not in text


@pytest.mark.parametrize("stock", ["roll-100x150", "letter-4-101.6x127"])
@pytest.mark.parametrize("count", [1, 2, 3, 5, 9, 30])
def test_however_many_yards_the_supers_listed_add_up(count: int, stock: str) -> None:
    (pull, _) = printing.pallet_tag().pulls
    pulls = tuple(replace(pull, supers=number + 1) for number in range(count))
    text = printing.text_of(_print(stock=stock, pulls=pulls))
    total = count * (count + 1) // 2
    assert text.endswith(f"Supers {total}")
    shown = text.count(pull.yard)
    if shown < count:
        rest = sum(range(shown + 1, count + 1))
        assert f"and {count - shown} more, listed on the screen {rest}" in text
    assert shown >= min(count, 2)


def test_an_empty_pallet_can_have_its_tag() -> None:
    assert printing.text_of(_print(pulls=())).endswith("Supers 0")
