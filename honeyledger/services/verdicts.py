"""What the rules of markets and grades say to a lot: each rule, its limit, the value, the outcome.

The values are what is on record of the lot itself; what was read of several lots together counts
where it has none of its own, and says so. Rules come from outside, see `exchange.standards`.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from honeyledger.domain.own_rules import OWN, SOLIDS, own_standards
from honeyledger.domain.quantities import QUANTITIES
from honeyledger.domain.results import Kind, Result, parse_result
from honeyledger.domain.standards import Judged, Standard, Verdict, grade_of, judged, with_own
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import place
from honeyledger.services.store import View

KINDS_OF_HONEY = "kinds"  # as a product's record names what its honey is sold as
ANY_MARKET = "markets"  # as the house's record names where it sells


@dataclass(frozen=True, slots=True)
class VerdictRow:
    """One rule and what the lot says to it, in plain words of the program.

    Args:
        outcome: "pass", "fail", "unknown" or "unverified"; `why`, where it is not known.
        together: the value was read of several lots together.
        mark: how well the figure is known: S, S2, C, M, or own.
    """

    what: str
    limit: str
    value: str
    outcome: str
    why: str
    together: bool
    mark: str
    source: str
    as_of: str
    note: str


@dataclass(frozen=True, slots=True)
class LotVerdict:
    """A lot under the rules of one market or grade.

    Args:
        scheme: the grades it is one of, "" for none; `is_grade` where it is the lot's.
        unverified: how many rules are shown only.
    """

    standard: str
    title: str
    market: str
    scheme: str
    is_grade: bool
    outcome: str
    unverified: int
    rows: tuple[VerdictRow, ...]
    note: str


def verdicts_of(
    view: View, code: str, standards: Sequence[Standard], kinds: Iterable[str] | None = None
) -> tuple[LotVerdict, ...]:
    """What each standard says to a lot, in their order.

    Args:
        kinds: what kinds of honey it is; without them, of jars those their product is sold as.

    Raises:
        Refusal: no such code.
    """
    lot = find_lot(view, code)
    results, together = results_of(view, lot)
    said = kinds if kinds is not None else _sold_as(view, lot)
    found = [judged(one, results, _known(one, said)) for one in standards]
    grades = _grades(found)
    return tuple(_verdict(one, together, one.standard in grades) for one in found)


def results_of(view: View, lot: Lot) -> tuple[dict[str, Result], frozenset[str]]:
    """What was found of a lot, by quantity, and which of it was read of several lots together."""
    marks = {mark.name: mark.value for mark in view.marks(lot.code)}
    found: dict[str, Result] = {}
    together = set()
    for name in QUANTITIES:
        own, shared = (_result(name, marks.get(f"{kind}{name}")) for kind in ("", COMPOSITE))
        if own is None and shared is not None:
            together.add(name)
        if (result := own or shared) is not None:
            found[name] = result
    water = found.get("moisture")
    if water is not None and water.figure is not None:
        found[SOLIDS] = Result(Kind.FIGURE, Decimal(100) - water.figure)
        together |= {SOLIDS} if "moisture" in together else set()
    return found, frozenset(together)


def with_house_rules(view: View, standards: Sequence[Standard]) -> tuple[Standard, ...]:
    """The standards with the house's own rules over them."""
    marks = view.marked("record", "limit/")
    own = own_standards(mark.value for mark in marks if isinstance(mark.value, Mapping))
    return with_own(standards, own)


def markets_of(view: View, standards: Sequence[Standard]) -> tuple[Standard, ...]:
    """The standards of those markets the house sells in; all, where its record names none.

    The house's own rules are over them, and those of no market are always among them.
    """
    standards = with_house_rules(view, standards)
    mark = view.mark("house", "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    wanted = set(_listed(str(record.get(ANY_MARKET, ""))))
    return tuple(
        one
        for one in standards
        if not wanted
        or one.name == OWN
        or wanted & {one.name, one.market.casefold(), one.scheme.casefold()}
    )


def _result(name: str, value: object) -> Result | None:
    """A reading as the ledger keeps it: whole parts, or as a laboratory reported it."""
    if isinstance(value, int):
        return QUANTITIES[name].result(value)
    return parse_result(value) if isinstance(value, str) and value else None


def _sold_as(view: View, lot: Lot) -> tuple[str, ...] | None:
    mark = view.mark(place("product", str(lot.attributes.get("product", ""))), "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    return _listed(str(record.get(KINDS_OF_HONEY, ""))) or None


def _listed(text: str) -> tuple[str, ...]:
    parts = (part.strip().casefold() for part in text.replace(";", ",").split(","))
    return tuple(dict.fromkeys(part for part in parts if part))


def _known(standard: Standard, kinds: Iterable[str] | None) -> list[str] | None:
    """Of the kinds of honey it is, those this standard knows: to another one it is plain honey."""
    if kinds is None:
        return None
    return [kind for kind in kinds if kind.strip().casefold() in standard.kinds]


def _grades(found: Sequence[Verdict]) -> list[Standard]:
    schemes = dict.fromkeys(one.standard.scheme for one in found if one.standard.scheme)
    grades = [
        grade_of([one for one in found if one.standard.scheme == scheme]) for scheme in schemes
    ]
    return [grade for grade in grades if grade is not None]


def _verdict(found: Verdict, together: frozenset[str], is_grade: bool) -> LotVerdict:
    standard = found.standard
    return LotVerdict(
        standard.name,
        standard.title,
        standard.market,
        standard.scheme,
        is_grade,
        found.outcome.value,
        found.unverified,
        tuple(_row(row, together) for row in found.rows),
        standard.note,
    )


def _row(row: Judged, together: frozenset[str]) -> VerdictRow:
    rule = row.rule
    return VerdictRow(
        what=rule.what,
        limit=rule.limit,
        value="" if row.result is None else str(row.result),
        outcome=row.outcome.value,
        why=row.why.value,
        together=row.result is not None and rule.what in together,
        mark=rule.mark.value,
        source=rule.source,
        as_of=rule.as_of,
        note=rule.note,
    )
