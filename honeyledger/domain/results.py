"""Results of a laboratory as they were reported: figures, "<" and ">", and "not detected".

What is below a limit of quantification is no figure: it is kept as it was said, and judged only
where that is enough. Figures are decimals, with as many places as were reported.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import shortened

NO_RESULT = Sentence(
    "no-result", "{text} is no result: type a figure such as 12.4, <5, >30, or not detected."
)

_NOT_DETECTED = re.compile(
    r"(?:n\.? ?d\.?|not detected|no detectad[oa])(?: ?\(?(?:<|below) ?([0-9.,]+)\)?)?", re.I
)
_FIGURE = re.compile(r"([<>]?) ?([0-9]{1,9}(?:[.,][0-9]{1,9})?)")


class Kind(Enum):
    """How a result was reported."""

    FIGURE = ""
    BELOW = "<"
    ABOVE = ">"
    NOT_DETECTED = "not detected"


@dataclass(frozen=True, slots=True)
class Result:
    """A result. Of one that was not detected, the figure is the limit of detection, if said."""

    kind: Kind
    figure: Decimal | None

    def __str__(self) -> str:
        """As it was reported."""
        if self.kind is not Kind.NOT_DETECTED:
            return f"{self.kind.value}{self.figure}"
        return self.kind.value if self.figure is None else f"not detected (<{self.figure})"


def parse_result(text: str, *, field: str = "result") -> Result:
    """Read a result as a laboratory writes it.

    Raises:
        Refusal: it is none.
    """
    plain = " ".join(text.split())
    if none := _NOT_DETECTED.fullmatch(plain):
        limit = none[1]
        if limit is None or _FIGURE.fullmatch(limit):
            figure = None if limit is None else _decimal(limit)
            return Result(Kind.NOT_DETECTED, figure)
    if found := _FIGURE.fullmatch(plain):
        return Result(Kind(found[1]), _decimal(found[2]))
    raise Refusal(NO_RESULT, field=field, text=shortened(text) or "Nothing")


def figure_of(text: str) -> Decimal | None:
    """A plain figure without a sign, with comma or point; None where it is none."""
    found = _FIGURE.fullmatch(text.strip())
    return _decimal(found[2]) if found and not found[1] else None


def figure(value: int, decimals: int) -> Result:
    """A reading of the ledger, such as hundredths of a percent, as a result."""
    return Result(Kind.FIGURE, Decimal(value).scaleb(-decimals))


def within(
    result: Result, lowest: Decimal | None = None, highest: Decimal | None = None
) -> bool | None:
    """Whether a result is within bounds, both inclusive; None where it does not say."""
    least, most = _range(result)
    if (most is not None and lowest is not None and _under(result, most, lowest)) or (
        least is not None and highest is not None and _over(result, least, highest)
    ):
        return False
    is_low_fine = lowest is None or (least is not None and least >= lowest)
    is_high_fine = highest is None or (most is not None and most <= highest)
    return True if is_low_fine and is_high_fine else None


def _range(result: Result) -> tuple[Decimal | None, Decimal | None]:
    """What the true value is at least, and at most; None where nobody knows."""
    if result.kind is Kind.FIGURE:
        return result.figure, result.figure
    if result.kind is Kind.ABOVE:
        return result.figure, None
    return Decimal(0), result.figure


def _under(result: Result, most: Decimal, lowest: Decimal) -> bool:
    """Whether it is surely below: what is below 8 is not 8."""
    return most < lowest or (result.kind in (Kind.BELOW, Kind.NOT_DETECTED) and most == lowest)


def _over(result: Result, least: Decimal, highest: Decimal) -> bool:
    return least > highest or (result.kind is Kind.ABOVE and least == highest)


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
