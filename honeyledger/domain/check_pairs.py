"""The two check digits of ISO/IEC 7064 MOD 97-10, as on legal entity identifiers (ISO 17442).

Letters count 10 to 35 before anything is reckoned; small ones are read as capitals.
"""

import re

from honeyledger.domain.refusals import Refusal, Sentence

NO_PAIR_FOR = Sentence(
    "no-check-pair-for",
    "{text} has other characters than letters A to Z and digits: no check digits can be made.",
)
_PLAIN = re.compile(r"[0-9A-Z]+", re.ASCII)


def check_pair(text: str, *, field: str = "code") -> str:
    """The two digits that go behind a text.

    Raises:
        Refusal: it has other characters than letters and digits.
    """
    return f"{98 - _number(text, field) * 100 % 97:02}"


def has_check_pair(text: str, *, field: str = "code") -> bool:
    """Whether a text ends in its own two check digits.

    Raises:
        Refusal: it has other characters than letters and digits.
    """
    return _number(text, field) % 97 == 1


def _number(text: str, field: str) -> int:
    plain = re.sub(r"[\s-]", "", text).upper()
    if not _PLAIN.fullmatch(plain):
        raise Refusal(NO_PAIR_FOR, field=field, text=text.strip() or "nothing")
    return int("".join(str(int(one, 36)) for one in plain))
