"""What the frame of the window says beside the line: the mast above it, the status bar below."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

SEPARATOR = " · "
_MINUTE_MS = 60_000
_HOUR_MS = 60 * _MINUTE_MS
_DAY_MS = 24 * _HOUR_MS
_CONTEXT = "frame"
_AGO = (
    (_MINUTE_MS, 90, str(QT_TRANSLATE_NOOP(_CONTEXT, "{n} min ago"))),
    (_HOUR_MS, 48, str(QT_TRANSLATE_NOOP(_CONTEXT, "{n} h ago"))),
)


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
    """The ledger and its surroundings, in words; most needed first.

    Args:
        alert: what needs a person, with a mark before all else; "" for nothing.
    """

    parts: tuple[str, ...] = ()
    units: str = ""
    alert: str = ""


def ago(ms: int) -> str:
    """How long ago something was, as people say it: minutes, then hours, then days."""
    for unit_ms, most, words in _AGO:
        count = ms // unit_ms
        if count < most:
            if not count:
                return QCoreApplication.translate(_CONTEXT, "just now")
            return QCoreApplication.translate(_CONTEXT, words).format(n=count)
    return QCoreApplication.translate(_CONTEXT, "{n} days ago").format(n=ms // _DAY_MS)


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
