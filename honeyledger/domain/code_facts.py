"""What a code says by itself: its check characters, whether it ends in one, its parts."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from honeyledger.domain.check_pairs import check_pair, has_check_pair
from honeyledger.domain.codes import check_character
from honeyledger.domain.gs1 import check_digit, read_elements
from honeyledger.domain.gs1_days import DAYS, gs1_day
from honeyledger.domain.moments import format_day

# Without a house nobody says what day it is: years are those of 2000 to 2099.
_IN_2000S = date(2049, 1, 1)
_GS1_LENGTHS = (8, 12, 13, 14, 18)


@dataclass(frozen=True, slots=True)
class CodeFacts:
    """What a text says as a code.

    Args:
        elements: what a GS1 code says, by its identifiers, days in words; nothing else then.
        gs1: the check digit that goes behind it; "" where it has other characters than digits.
        fits_gs1: whether its last digit is that of a GS1 number; None where it is as long as none.
        character: the character of ISO/IEC 7064 MOD 37,36 that goes behind it.
        pair: the two digits of ISO/IEC 7064 MOD 97-10 that go behind it.
    """

    elements: Mapping[str, str] = field(default_factory=dict)
    gs1: str = ""
    fits_gs1: bool | None = None
    character: str = ""
    ends_in_character: bool = False
    pair: str = ""
    ends_in_pair: bool = False


def code_facts(text: str) -> CodeFacts:
    """What a text says as a code.

    Raises:
        Refusal: it is neither a GS1 code nor made of letters and digits.
    """
    elements = read_elements(text, field="text")
    if elements is not None:
        return CodeFacts({ai: _read(ai, value) for ai, value in elements.items()})
    pair = check_pair(text, field="text")
    plain = re.sub(r"[\s-]", "", text).upper()
    is_number = plain.isdigit()
    return CodeFacts(
        gs1=check_digit(plain) if is_number else "",
        fits_gs1=(
            check_digit(plain[:-1]) == plain[-1]
            if is_number and len(plain) in _GS1_LENGTHS
            else None
        ),
        character=check_character(plain),
        ends_in_character=len(plain) > 1 and check_character(plain[:-1]) == plain[-1],
        pair=pair,
        ends_in_pair=has_check_pair(text, field="text"),
    )


def _read(ai: str, value: str) -> str:
    return format_day(gs1_day(value, _IN_2000S, field="text")) if ai in DAYS else value
