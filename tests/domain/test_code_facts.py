"""What a code says by itself."""

import pytest

from honeyledger.domain.code_facts import CodeFacts, code_facts
from honeyledger.domain.codes import check_character
from honeyledger.domain.refusals import Refusal


def test_a_number_and_whether_its_last_digit_fits() -> None:
    # Source: gs1.org, how to calculate a check digit manually (629104150021, 3).
    assert code_facts("629104150021").gs1 == "3"
    assert code_facts("6291041500213").fits_gs1 is True
    assert code_facts("6291041500214").fits_gs1 is False
    assert code_facts("62910").fits_gs1 is None


def test_letters_have_no_check_digit_but_a_character_and_a_pair() -> None:
    # Source: python-stdnum, mod_37_36 and grid; a legal entity identifier of ISO 17442.
    found = code_facts("A1-2425G-ABC1234002")
    assert (found.gs1, found.fits_gs1, found.character) == ("", None, "M")
    assert code_facts("a12425gabc1234002m").ends_in_character
    assert not code_facts("A12425GABC1234002N").ends_in_character
    assert code_facts("213800KUD8LAJWSQ9D15").ends_in_pair
    assert not code_facts(check_character("D26")).ends_in_character


def test_a_gs1_code_is_read_into_its_parts() -> None:
    assert code_facts("(01)09521234543213(17)260400") == CodeFacts(
        {"01": "09521234543213", "17": "30 Apr 2026"}
    )
    with pytest.raises(Refusal, match="no check digits can be made") as refused:
        code_facts("Größe")
    assert refused.value.field == "text"
