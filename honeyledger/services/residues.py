"""What a substance found, or feared, in honey comes to in all that was made of it: an aid.

A level in a yard's pulls, a lot or a drum is carried forward by share: what is expected where
vessels mix evenly. The upper bound takes the worst mixing there can be: all of the honey with the
substance in one lot, as far as it has room. Neither clears anything: what counts is a laboratory,
the authority and the local code.
"""

from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_figure
from honeyledger.services.holding import noun_of
from honeyledger.services.reached import whereabouts_of
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_forward

NO_LEVEL = Sentence("residue-no-level", "Say the level: a figure above 0, in {unit}.")
OVER, MAY_BE, UNDER = "over", "may be over", "under"
UNIT = "µg/kg"
CAUTION = phrase(
    "An aid, no clearance: levels of a mix are reckoned, not measured. What counts is a "
    "laboratory, your authority and your local code."
)
THOUSAND = 1_000
LARGEST = 1_000_000_000  # all of it: a kilogram in a kilogram


def parse_level(text: str, field: str) -> int:
    """Read a level or a limit as typed, in thousandths of `UNIT`.

    Raises:
        Refusal: it is no figure, or beyond what there can be.
    """
    return parse_figure(text, "a level", "12.5", decimals=3, bounds=(0, LARGEST), field=field)


@dataclass(frozen=True, slots=True)
class ResidueLot:
    """A lot downstream: thousandths of the unit.

    Args:
        expected, most: by share, and at the worst mixing.
        judged: against the limit, "" where none was given: "over" where even what is expected
            is, "may be over" where only the upper bound is.
        where: how many grams are in the house and how many with customers.
    """

    code: str
    noun: str
    share: float
    expected: int
    most: int
    judged: str
    here_g: int
    sent_g: int


@dataclass(frozen=True, slots=True)
class ResidueSpread:
    """What came of a substance: the highest expected first, its own lots among them."""

    code: str
    level: int
    limit: int | None
    source_g: int
    lots: tuple[ResidueLot, ...]


def residue_spread(
    view: View,
    text: str,
    level: int,
    limit: int | None = None,
    first_day: str = "",
    last_day: str = "",
) -> ResidueSpread:
    """The level expected in every lot that has some of it, and the most it can be.

    Args:
        text: a yard, a supplier, a lot or a drum; days, ISO, of a yard's pulls.
        level, limit: thousandths of `UNIT`.

    Raises:
        Refusal: no such code or name; the level is none.
    """
    if level <= 0:
        raise Refusal(NO_LEVEL, field="level", unit=UNIT)
    trace = trace_forward(view, text, first_day, last_day)
    heads = view.lot_heads([lot.id for lot in trace.lots])
    starts = dict(trace.starts)
    source_g = round(sum(heads[lot].made_g * part for lot, part in starts.items()))
    on_hand, given = whereabouts_of(view, heads)
    here: dict[str, int] = {}
    for row in on_hand:
        here[row.lot] = here.get(row.lot, 0) + row.grams
    sent: dict[int, int] = {}
    for rows in given.values():
        for holding in rows:
            sent[holding.lot] = sent.get(holding.lot, 0) + holding.grams
    lots = view.lots(heads)
    found = []
    for one in trace.lots:
        made_g = heads[one.id].made_g
        expected = round(level * one.share)
        room = min(1.0, source_g / made_g) if made_g else 1.0
        most = level if one.id in starts else max(expected, round(level * room))
        found.append(
            ResidueLot(
                one.code,
                noun_of(view, lots[one.id]),
                one.share,
                expected,
                most,
                _judged(expected, most, limit),
                here.get(one.code, 0),
                sent.get(one.id, 0),
            )
        )
    found.sort(key=lambda row: (-row.expected, -row.most, row.code))
    return ResidueSpread(trace.code, level, limit, source_g, tuple(found))


def _judged(expected: int, most: int, limit: int | None) -> str:
    if limit is None:
        return ""
    return OVER if expected > limit else MAY_BE if most > limit else UNDER
