"""A season looked ahead to, as bands over many simulated ones: when it ends, and what more buys.

A band is where four of five simulated seasons come out: its lower tenth, its middle, its upper
tenth. What one more of something buys is told season by season, both simulated with the same
chance, so that luck is not taken for a gain.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Protocol

from honeyledger.domain.refusals import Refusal
from honeyledger.services.season_needs import FURTHEST_DAYS, Needs, needs
from honeyledger.services.season_plan import CHANGES, HousePlan, changed, problems

Progress = Callable[[int, int], bool]
"""Told how many seasons are simulated, of how many; answers whether to go on."""

SUPPLY, HANDS, EXTRACTOR, FRAMES, TANK = "supers", "people", "extractor", "frames", "tank"
WAITS = (SUPPLY, HANDS, EXTRACTOR, FRAMES, TANK)
"""What a machine waits for: uncapping for the first three, extractors for people and the rest."""


@dataclass(frozen=True, slots=True)
class Season:
    """One simulated season.

    Args:
        days: until the last frame was out, the first day counted; 0 where none was in a year.
        minutes: of the line, from each day's first load to its last, without waiting for supers.
        work_days: days on which something was extracted.
        honey_g: that came into tanks.
        by_day: frames that were through at the end of each day.
        pallets: most that stood in the hot room.
        waits: of the open minutes of a machine, in 1,000, what it waited for; as `WAITS`.
    """

    days: int
    minutes: int
    work_days: int
    honey_g: int
    by_day: tuple[int, ...]
    pallets: int
    waits: tuple[int, ...]


class Simulator(Protocol):
    """Simulates seasons of a plan; the same seed gives the same seasons."""

    def seasons(
        self, plan: HousePlan, count: int, seed: int, progress: Progress
    ) -> Sequence[Season]:
        """So many seasons, or as many as there were when it was told to stop."""
        ...


@dataclass(frozen=True, slots=True)
class Band:
    """Four of five seasons come out between `low` and `high`, half of them below `middle`."""

    low: int
    middle: int
    high: int


@dataclass(frozen=True, slots=True)
class Gain:
    """What one more of something buys, in days; `sure` where nine of ten seasons end sooner."""

    what: str
    days: Band

    @property
    def sure(self) -> bool:
        """Whether it helps in nine seasons of ten."""
        return self.days.low > 0


@dataclass(frozen=True, slots=True)
class Forecast:
    """What the season comes to.

    Args:
        wrong: sentences about figures that cannot be; then nothing was simulated.
        seasons: how many were simulated.
        late: of them, how many did not end within a year.
        curve: frames that are through at the end of each day.
        waits: in 1,000 of a machine's open minutes, as `WAITS`, at the middle.
        stopped: whether it was told to stop before all were simulated.
    """

    plan: HousePlan
    needs: Needs
    wrong: tuple[Refusal, ...] = ()
    seasons: int = 0
    late: int = 0
    days: Band | None = None
    ends: tuple[date, date, date] | None = None
    hours: Band | None = None
    work_days: Band | None = None
    drums: Band | None = None
    jars: Band | None = None
    pallets: Band | None = None
    curve: tuple[Band, ...] = ()
    waits: tuple[int, ...] = ()
    gains: tuple[Gain, ...] = ()
    stopped: bool = False


def forecast(
    plan: HousePlan,
    simulator: Simulator,
    progress: Progress,
    *,
    count: int = 100,
    seed: int = 1,
    changes: Sequence[str] = tuple(CHANGES),
) -> Forecast:
    """Look ahead: by arithmetic where a figure cannot be, else by so many simulated seasons."""
    wrong = problems(plan)
    plain = needs(plan, {one.field for one in wrong})
    if wrong:
        return Forecast(plan, plain, wrong)
    others = [(what, made) for what in changes if (made := changed(plan, what)) is not None]
    few = max(1, count // 4)
    step = _Steps(progress, count + few * len(others))
    base = simulator.seasons(plan, count, seed, step)
    step.done(len(base))
    gains = []
    for what, made in others:
        if step.stopped:
            break
        other = simulator.seasons(made, few, seed, step)
        step.done(len(other))
        if not step.stopped:
            gains.append(
                Gain(what, band([_days(a) - _days(b) for a, b in zip(base, other, strict=False)]))
            )
    return _told(plan, plain, base, tuple(gains), step.stopped)


class _Steps:
    """One progress over several simulations."""

    def __init__(self, progress: Progress, whole: int) -> None:
        self._progress, self._whole = progress, whole
        self._before = 0
        self.stopped = False

    def __call__(self, done: int, _of: int) -> bool:
        self.stopped = self.stopped or not self._progress(self._before + done, self._whole)
        return not self.stopped

    def done(self, count: int) -> None:
        """A simulation has ended."""
        self._before += count


def _days(season: Season) -> int:
    return season.days or FURTHEST_DAYS + 1


def _told(
    plan: HousePlan, plain: Needs, base: Sequence[Season], gains: tuple[Gain, ...], stopped: bool
) -> Forecast:
    if not base:
        return Forecast(plan, plain, stopped=stopped)
    ended = [season for season in base if season.days]
    days = band([_days(season) for season in base])
    honey = [season.honey_g for season in base]
    through = [one.days for one in ended] or [FURTHEST_DAYS]
    last = max(through)
    return Forecast(
        plan,
        plain,
        seasons=len(base),
        late=len(base) - len(ended),
        days=days,
        ends=(_day(plan, days.low), _day(plan, days.middle), _day(plan, days.high)),
        hours=band([-(-season.minutes // 60) for season in base]),
        work_days=band([season.work_days for season in base]),
        drums=band([-(-grams // plan.drum_g) for grams in honey]),
        jars=band([grams * plan.jars_percent // 100 // plan.jar_g for grams in honey]),
        pallets=band([season.pallets for season in base]),
        curve=tuple(band([_at(season, day) for season in base]) for day in range(last)),
        waits=tuple(
            band([season.waits[at] for season in base]).middle for at in range(len(WAITS))
        ),
        gains=gains,
        stopped=stopped,
    )


def _day(plan: HousePlan, days: int) -> date:
    return plan.begins + timedelta(days=max(1, days) - 1)


def _at(season: Season, day: int) -> int:
    return season.by_day[min(day, len(season.by_day) - 1)] if season.by_day else 0


def band(values: Sequence[int]) -> Band:
    """The lower tenth, the middle and the upper tenth of some whole numbers."""
    order = sorted(values)
    last = len(order) - 1
    return Band(order[last // 10], order[last // 2], order[last - last // 10])
