"""The two check digits of ISO/IEC 7064 MOD 97-10."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_97_10

from honeyledger.domain.check_pairs import check_pair, has_check_pair
from honeyledger.domain.refusals import Refusal


@pytest.mark.parametrize(
    ("text", "pair"),
    [
        # Source: the tests of python-stdnum (mod_97_10); check list 13 and 14 (S, recomputed C).
        ("794", "44"),
        ("1733", "40"),
        ("538182357", "82"),
        ("4354111611551114", "31"),
        ("99991234567890121414", "90"),
        # The preferred range of the digits, 02 to 98 (S, the same).
        ("5367", "02"),
        ("5303", "97"),
        ("5335", "98"),
        # Check list 15: computed by the algorithm of 12 CFR 1003, appendix C (S); the string
        # itself is a value from memory (M).
        ("10Bx939c5543TqA1144M999143X", "38"),
    ],
)
def test_pairs_are_as_published(text: str, pair: str) -> None:
    assert check_pair(text) == pair
    assert has_check_pair(text + pair)
    assert int("".join(str(int(one, 36)) for one in text.upper() + pair)) % 97 == 1
    assert not has_check_pair(text + f"{(int(pair) + 1) % 100:02}")


@given(st.text("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=18))
def test_python_stdnum_agrees(text: str) -> None:
    assert check_pair(text) == mod_97_10.calc_check_digits(text)


def test_an_identifier_of_a_legal_entity_ends_in_its_own() -> None:
    # Source: python-stdnum (lei), seen (S).
    assert has_check_pair("2138 00KU D8LA JWSQ 9D15")
    assert not has_check_pair("213800KUD8LAJWSQ9D51"), "two digits changed about"


@pytest.mark.parametrize(("text", "shown"), [("", "nothing"), ("Ä1", "Ä1"), ("7/9", "7/9")])
def test_other_characters_are_refused(text: str, shown: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_pair(text, field="text")
    assert refused.value.field == "text"
    assert refused.value.text == (
        f"{shown} has other characters than letters A to Z and digits: no check digits can be "
        "made."
    )
