"""What was said of where honey is from, with shares where they were told: countries, yards."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_number, parse_percent

ALL = 1000  # permille
_BETWEEN = re.compile(r"[;,]\s*(?=[^\d\s])|;")
_WITH_SHARE = re.compile(r"(.*?[^\d\s.,])\s*([\d.,]+)\s*%?")

SHARES_OFF = Sentence(
    "shares-off",
    "The shares of {names} add up to {total} %, not to 100 %. Correct them, or leave all of them "
    "out.",
)
SHARE_MISSING = Sentence(
    "share-missing", "{name} has no share, and the others have: give each its share, or none."
)
TOO_FINE = Sentence(
    "share-too-fine", "{share} is too fine: shares go by tenths of a percent. Round it."
)
NAMED_TWICE = Sentence("named-twice", "{name} is named twice. Name it once, with its whole share.")


@dataclass(frozen=True, slots=True)
class Part:
    """A country or a yard and its share in tenths of a percent; None where nobody said."""

    name: str
    permille: int | None = None


def part_said(name: str, share: str, field: str) -> Part:
    """A country or a yard as it was typed, with its share in percent, "" where nobody said.

    Raises:
        Refusal: the share is no percentage, or finer than a tenth.
    """
    if not share.strip():
        return Part(name.strip())
    hundredths = parse_percent(share, "a share", field=field)
    if hundredths % 10:
        raise Refusal(TOO_FINE, field=field, share=share.strip())
    return Part(name.strip(), hundredths // 10)


def parts_in(text: str, field: str) -> tuple[Part, ...]:
    """Countries or yards as a person types them in one text: "Argentina 60 %, Uruguay 40".

    Raises:
        Refusal: a share is none, or they do not add up.
    """
    parts = []
    for said in _BETWEEN.split(text.strip(" ,;")):
        found = _WITH_SHARE.fullmatch(said.strip())
        name, share = (found[1], found[2]) if found else (said, "")
        if name.strip():
            parts.append(part_said(name, share, field))
    check_parts(parts, field)
    return tuple(parts)


def check_parts(parts: Sequence[Part], field: str) -> None:
    """Shares are told of all or of none, and add up.

    Raises:
        Refusal: they do not; or one is named twice, or not at all.
    """
    names = [part.name.strip() for part in parts]
    for name in names:
        if [one.casefold() for one in names].count(name.casefold()) > 1:
            raise Refusal(NAMED_TWICE, field=field, name=name)
    told = [part.permille for part in parts if part.permille is not None]
    if not told:
        return
    if len(told) < len(parts):
        missing = next(part.name for part in parts if part.permille is None)
        raise Refusal(SHARE_MISSING, field=field, name=missing)
    if sum(told) != ALL or min(told) <= 0:
        total = format_number(Fraction(sum(told), 10), 1)
        raise Refusal(SHARES_OFF, field=field, names=" and ".join(names), total=total)


def parts_text(parts: Sequence[Part]) -> str:
    """Parts as people write them: "Argentina 60 %, Uruguay 40 %"."""
    return ", ".join(
        part.name.strip()
        if part.permille is None
        else f"{part.name.strip()} {_percent(part.permille)} %"
        for part in parts
    )


def _percent(permille: int) -> str:
    return format_number(Fraction(permille, 10), 1 if permille % 10 else 0)
