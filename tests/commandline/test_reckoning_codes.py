"""Check characters and GS1 codes in the terminal, where no house is."""

from stdnum import ean
from stdnum.iso7064 import mod_37_36

from tests.support.terminal import Terminal


def test_check_characters_of_a_number_and_of_letters(bare: Terminal) -> None:
    # Sources: gs1.org (629104150021, 3); python-stdnum, mod_97_10 (794, 44).
    assert bare.json("reckon", "code", "629104150021")["gs1"] == "3"
    assert bare.do("reckon", "code", "794") == (
        f"GS1 check digit: {ean.calc_check_digit('794')}\n"
        f"ISO/IEC 7064 MOD 37,36: {mod_37_36.calc_check_digit('794')}\n"
        "ISO/IEC 7064 MOD 97-10: 44\n"
    )
    # Source: python-stdnum, mod_37_36 and grid.
    found = bare.json("reckon", "code", "A12425GABC1234002")
    assert (found["gs1"], found["mod_37_36"], found["ends_in_its_pair"]) == (None, "M", False)
    shown = bare.do("reckon", "code", "213800KUD8LAJWSQ9D15")
    assert shown.endswith("It ends in its own MOD 97-10 digits.\n")


def test_the_elements_of_a_gs1_code_with_days_in_words(bare: Terminal) -> None:
    assert bare.do("reckon", "code", "(01)09521234543213(17)260400") == (
        "(01) 09521234543213\n(17) 30 Apr 2026\n"
    )
    assert "261399 is no day as GS1 codes carry it" in bare.refused(
        "reckon", "code", "(01)09521234543213(17)261399"
    )
    assert "no check digits can be made" in bare.refused("reckon", "code", "Größe")
