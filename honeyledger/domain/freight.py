"""Numbers of freight containers: whether the check digit fits (ISO 6346)."""

import re
from string import ascii_uppercase

_NUMBER = re.compile(r"[A-Z]{4}[0-9]{7}")
# A letter's value: 10 upwards, leaving out multiples of 11 (ISO 6346, from memory).
_VALUES = dict(zip(ascii_uppercase, (n for n in range(10, 39) if n % 11), strict=True))


def container_number(text: str) -> str:
    """A container's number without blanks and hyphens, in capitals; "" where it is none.

    A flexitank, a tanker or a house's own box goes by whatever its owner painted on it.
    """
    plain = re.sub(r"[\s-]", "", text).upper()
    return plain if _NUMBER.fullmatch(plain) else ""


def fits_check_digit(number: str) -> bool:
    """Whether the last digit of a container's number follows from the rest."""
    total = sum(
        (_VALUES[sign] if sign in _VALUES else int(sign)) << at
        for at, sign in enumerate(number[:-1])
    )
    return total % 11 % 10 == int(number[-1])
