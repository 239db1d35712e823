"""Each line's losses run by run on a control chart, so that a leak or a bad scale shows in days.

Limits are of the runs before the season, where there are enough, else of its first twenty; every
closed run is judged by them (`domain.control`). An alarm says where to look first: which machine,
which run, which part of the losses, and which way it went.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.control import MOST, Alarm, Limits, alarms, usual_limits
from honeyledger.domain.phrases import phrase
from honeyledger.services.season_losses import RunLoss

DIFFERENCE, CAPPINGS, WET, FOAM, SPILLED = (
    *("difference_g", "cappings_g", "wet_g"),
    *("foam_g", "spilled_g"),
)
PARTS = (DIFFERENCE, CAPPINGS, WET, FOAM, SPILLED)
_PHRASES: Mapping[str, str] = {
    DIFFERENCE: phrase("weighing difference"),
    CAPPINGS: phrase("cappings"),
    WET: phrase("left in combs"),
    FOAM: phrase("foam"),
    SPILLED: phrase("spilled"),
}
_LOOK: Mapping[tuple[str, int], str] = {
    (DIFFERENCE, 1): phrase(
        "Honey is missing: look for a leak, a drum nobody wrote down, or a drum scale that reads "
        "low."
    ),
    (DIFFERENCE, -1): phrase(
        "More came out than went in: look for a pallet nobody scanned, or a scale that reads off."
    ),
    (CAPPINGS, 1): phrase(
        "Much went with the cappings: look at the knives and at the depth of the cut, or a barrel "
        "of several runs."
    ),
    (CAPPINGS, -1): phrase("Few cappings: look for a barrel that was not weighed yet."),
    (WET, 1): phrase(
        "More stays in the combs: look at spin time and speed, at cold or granulated honey."
    ),
    (WET, -1): phrase("Wet supers weigh little: look at their scale, and count the empties."),
    (FOAM, 1): phrase("Much foam: look for air drawn in at the pump or the sump."),
    (FOAM, -1): phrase("Little foam: look whether it was skimmed and weighed."),
    (SPILLED, 1): phrase("Much was spilled or rinsed away: ask what happened."),
    (SPILLED, -1): phrase("Little was spilled or rinsed away."),
}


@dataclass(frozen=True, slots=True)
class Judged:
    """One run of one line in one part of the losses; `share` is in hundredths of a percent.

    Args:
        look: where to look first, in words; "" where nothing is out of the usual.
    """

    run: RunLoss
    share: int
    alarm: Alarm | None
    look: str


@dataclass(frozen=True, slots=True)
class PartChart:
    """One part of one line's losses; `limits` None where its runs are too few to say."""

    line: str
    part: str
    limits: Limits | None
    rows: tuple[Judged, ...]

    @property
    def out(self) -> tuple[Judged, ...]:
        """The runs that are out of the usual."""
        return tuple(row for row in self.rows if row.alarm is not None)


def part_name(part: str) -> str:
    """What a part of the losses is called."""
    return _PHRASES[part]


def limits_shown(part: str, limits: Limits) -> tuple[float, float, float]:
    """Lower limit, mean and upper limit; only a difference can be below nothing."""
    low = limits.low if part == DIFFERENCE else max(0.0, limits.low)
    return low, limits.centre, limits.high


def control_charts(runs: Sequence[RunLoss], before: Sequence[RunLoss] = ()) -> list[PartChart]:
    """Every part of every line; `before` are closed runs of the season before, oldest first."""
    closed = [run for run in runs if not run.is_open]
    lines = sorted({run.line for run in closed}, key=str.casefold)
    return [_chart(line, part, closed, before) for line in lines for part in PARTS]


def out_of_usual(charts: Sequence[PartChart]) -> list[tuple[PartChart, Judged]]:
    """Every run that is out of the usual, the latest first."""
    found = [(chart, row) for chart in charts for row in chart.out]
    return sorted(found, key=lambda one: (one[1].run.day, one[1].run.code), reverse=True)


def _chart(
    line: str, part: str, closed: Sequence[RunLoss], before: Sequence[RunLoss]
) -> PartChart:
    own = _shares(line, part, closed)
    old = [share for _, share in _shares(line, part, before)][-MOST:]
    shares = [share for _, share in own]
    limits = usual_limits([*old, *shares])
    found = alarms(shares, limits) if limits is not None else [None] * len(shares)
    rows = tuple(
        Judged(run, share, alarm, _LOOK[part, alarm.side] if alarm else "")
        for (run, share), alarm in zip(own, found, strict=True)
    )
    return PartChart(line, part, limits, rows)


def _shares(line: str, part: str, runs: Sequence[RunLoss]) -> list[tuple[RunLoss, int]]:
    """What is known of a part: where not all wet supers were weighed, nothing of them."""
    made = []
    for run in runs:
        grams = getattr(run, part)
        share = None if grams is None else run.share(grams)
        if run.line == line and share is not None and not (part == CAPPINGS and _waits(run)):
            made.append((run, share))
    return made


def _waits(run: RunLoss) -> bool:
    """Whether its cappings were not weighed as it was signed, and none are of it yet."""
    return run.cappings_to_follow and not run.cappings_g
