"""A house's own rules: what it asks itself of its honey, or has read in a text that is in force.

Each is one record of the house, so that every station judges alike and it stays on record who put
it there and when. It takes the place of the shipped rule it is about, and its figure decides.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from honeyledger.domain.quantities import QUANTITIES
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.results import figure_of
from honeyledger.domain.standards import Mark, Rule, Standard

SOLIDS = "solids"
OWN = "own"
NOT_JUDGED = Sentence("not-judged", "{name} is nothing that rules judge: choose of {names}.")
NO_LIMIT = Sentence(
    "no-limit", "A rule needs a lowest or a highest figure: type one of them, such as 17.5."
)
NOT_A_LIMIT = Sentence("not-a-limit", "{text} is no figure for a limit: type a number, like 17.5.")
LIMITS_CROSSED = Sentence(
    "limits-crossed", "The lowest, {lowest}, is above the highest, {highest}. Correct one of them."
)

Record = Mapping[str, object]


def read_rule(record: Record) -> Rule:
    """The rule of a record as it was typed.

    Raises:
        Refusal: something in it cannot be right.
    """
    what = " ".join(_text(record, "property").split()).casefold()
    if what != SOLIDS and what not in QUANTITIES:
        names = ", ".join((*QUANTITIES, SOLIDS))
        raise Refusal(NOT_JUDGED, field="property", name=what or "Nothing", names=names)
    lowest, highest = (_limit(record, name) for name in ("lowest", "highest"))
    if lowest is None and highest is None:
        raise Refusal(NO_LIMIT, field="highest")
    if lowest is not None and highest is not None and lowest > highest:
        raise Refusal(LIMITS_CROSSED, field="highest", lowest=lowest, highest=highest)
    kinds = (part.strip().casefold() for part in _text(record, "kinds").split(","))
    return Rule(
        what=what,
        unit="%" if what == SOLIDS else QUANTITIES[what].unit,
        lowest=lowest,
        highest=highest,
        mark=Mark.OWN,
        source=_text(record, "source") or "the house's own rule",
        as_of=_text(record, "as_of"),
        any_of=frozenset(part for part in kinds if part),
        note=_text(record, "note"),
    )


def own_standards(records: Iterable[Record]) -> tuple[Standard, ...]:
    """The house's rules under the standards they belong to, its own standard where they name none.

    What an older program let through and cannot be read is left out.
    """
    found: dict[str, list[Rule]] = {}
    for record in records:
        try:
            rule = read_rule(record)
        except Refusal:
            continue
        found.setdefault((_text(record, "standard") or OWN).casefold(), []).append(rule)
    return tuple(
        Standard(name, OWN if name == OWN else name, _title(name), tuple(rules))
        for name, rules in found.items()
    )


def _title(name: str) -> str:
    return "The house's own rules" if name == OWN else name


def _text(record: Record, name: str) -> str:
    return str(record.get(name, "")).strip()


def _limit(record: Record, name: str) -> Decimal | None:
    text = _text(record, name)
    if not text:
        return None
    found = figure_of(text)
    if found is None:
        raise Refusal(NOT_A_LIMIT, field=name, text=text)
    return found
