"""What the frame of the window says beside the line: the mast above it, the status bar below."""

from collections.abc import Sequence
from dataclasses import dataclass

SEPARATOR = " · "


@dataclass(frozen=True, slots=True)
class MastFacts:
    """Whose house it is, which station, who works, which season."""

    house: str
    station: str = ""
    operator: str = ""
    operator_badge: str = ""
    season: str = ""


@dataclass(frozen=True, slots=True)
class StatusFacts:
    """The ledger and its surroundings, in words; most needed first."""

    parts: tuple[str, ...] = ()
    units: str = ""


def mast_choices(facts: MastFacts) -> list[str]:
    """What the mast's right end may say, fullest first.

    Where room is short the season goes first, then the operator's name gives way to the badge's
    number.
    """
    fullest = (facts.station, facts.operator, facts.season)
    without_season = (facts.station, facts.operator)
    badge_only = (facts.station, facts.operator_badge or facts.operator)
    made: list[str] = []
    for parts in (fullest, without_season, badge_only, (facts.station,)):
        words = SEPARATOR.join(part for part in parts if part)
        if words not in made:
            made.append(words)
    return made


def status_choices(parts: Sequence[str]) -> list[str]:
    """The status bar's words, fullest first; the last part is the least needed."""
    return [SEPARATOR.join(parts[:count]) for count in range(len(parts), 0, -1)]
