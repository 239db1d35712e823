"""Freight containers' numbers, against the library python-stdnum (its module iso6346)."""

import pytest
from stdnum import iso6346

from honeyledger.domain.freight import container_number, fits_check_digit


@pytest.mark.parametrize("text", ["CSQU3054383", "csqu 305438 3", "TOLU4734787"])
def test_a_number_is_read_however_it_is_written(text: str) -> None:
    number = container_number(text)
    assert number == iso6346.compact(text)
    assert fits_check_digit(number)


@pytest.mark.parametrize("text", ["Tank 4", "", "CSQU305438", "CS1U3054383"])
def test_what_is_no_such_number(text: str) -> None:
    assert container_number(text) == ""


def test_the_digit_is_the_one_of_the_standard() -> None:
    """Every serial of a stride, each letter in every place: the check digit as stdnum has it."""
    for number in range(0, 1_000_000, 7919):
        for letters in ("ABCU", "XYZJ", "LMKU", "VWQZ", "DEFU", "GHIJ", "NOPU", "RSTU"):
            body = f"{letters}{number:06}"
            wanted = iso6346.calc_check_digit(body)
            assert [d for d in "0123456789" if fits_check_digit(body + d)] == [wanted]
