"""A season of a honey house by one seed: the weather, the trucks and the hot room before the line.

Of chance are the weather, each machine's time, its stops, and the crop. Pallets stand in the hot
room until they are warm.
"""

import random
from collections.abc import Sequence
from math import log, sqrt

import simpy

from honeyledger.optimisation.house_line import Draws, Hours, Line, Process
from honeyledger.services.season_forecast import Season
from honeyledger.services.season_needs import FURTHEST_DAYS, frames_left
from honeyledger.services.season_plan import MINUTES_A_DAY, HousePlan

TRUCKS_MIN = (11 * 60, 16 * 60)  # when pallets come in; common practice, no source
PACE_OF_YEARS = 0.1  # how far the rest of a season may go off; common practice, no source
SPELLS = 1 / 3
"""By how much likelier rain is after a wet day than after a dry one: common practice, no source.

For whole days of rain Gabriel and Neumann (1962), "A Markov chain model for daily rainfall
occurrence at Tel Aviv", found 0.66 less 0.25; values from memory. Less rain keeps nobody at home.
"""


class Weather:
    """Days without pulling, in spells. How many there are is drawn anew for each season."""

    def __init__(self, plan: HousePlan, chance: random.Random) -> None:
        self._chance = chance
        # In spells days tell as much as fewer would, each by itself; what is usual (one in five,
        # common practice, no source) counts for two days besides.
        part = plan.weather_permille / 1_000
        told = plan.weather_days * (1 - SPELLS) / (1 + SPELLS)
        self._wet = chance.betavariate(part * told + 0.4, (1 - part) * told + 1.6)
        self._before: bool | None = None

    def next_is_wet(self) -> bool:
        """The next day's weather, work day or not."""
        rain = self._wet
        if self._before is not None:
            rain += SPELLS * (self._before - self._wet)
        self._before = self._chance.random() < rain
        return self._before


class Trucks:
    """Pallets come in on days fit for pulling, as many as the hot room has places."""

    def __init__(self, line: Line, chance: random.Random) -> None:
        self._line, self._chance = line, chance
        plan = line.plan
        self._out = plan.left
        self._supers = max(1, plan.left)
        self._brought = 0
        self.most = 0
        self._weather = Weather(plan, chance)
        # What days tell of a truck is the less sure, the fewer they are.
        self._uneven = plan.truck_percent / 100
        unsure = self._uneven / sqrt(max(1, plan.truck_days))
        self._truck = plan.pulled_a_day * max(0.2, chance.gauss(1.0, unsure))
        self._arrive(min(plan.here, plan.left), warm=True)
        line.env.process(self._pull())

    def _pull(self) -> Process:
        line, plan, env = self._line, self._line.plan, self._line.env
        for day, works in enumerate(line.hours.works):
            if not self._out:
                return
            if self._weather.next_is_wet() or not works:
                continue
            today = max(1, round(self._truck * max(0.1, self._chance.gauss(1.0, self._uneven))))
            for nth, at in enumerate(TRUCKS_MIN, 1):
                moment = day * MINUTES_A_DAY + at
                if moment > env.now:
                    yield env.timeout(moment - env.now)
                fits = max(0, line.places.free) * plan.supers_a_place
                on_it = today * nth // len(TRUCKS_MIN) - today * (nth - 1) // len(TRUCKS_MIN)
                self._arrive(min(on_it, fits, self._out), warm=False)

    def _arrive(self, supers: int, *, warm: bool) -> None:
        """Pallets, the last one not full; they take their places at once."""
        line, plan = self._line, self._line.plan
        pallets = []
        while supers > 0:
            on_it = min(plan.supers_a_place, supers)
            before, self._brought = self._brought, self._brought + on_it
            frames = line.total * self._brought // self._supers
            pallets.append(frames - line.total * before // self._supers)
            supers -= on_it
            self._out -= on_it
            line.places.free -= 1
        self.most = max(self.most, plan.places - line.places.free)
        if pallets:
            line.env.process(self._warm(pallets, 0 if warm else plan.warm_hours * 60))

    def _warm(self, pallets: Sequence[int], minutes: float) -> Process:
        yield self._line.env.timeout(minutes)
        for frames in pallets:
            self._line.bring(frames)


def house_draws(plan: HousePlan, chance: random.Random) -> Draws:
    """A house's own times: uneven at the uncapper, steady at the machines, with stops."""
    uneven = plan.pace_percent / 100
    sigma = sqrt(log(1 + uneven * uneven))
    pace = max(0.5, chance.gauss(1.0, PACE_OF_YEARS))
    a_frame = 60 / plan.uncapped_an_hour / pace
    between = 100 * 60 * 10 / plan.stops_100h_tenths if plan.stops_100h_tenths else 0.0
    load, spin, drum = (t / 10 for t in (plan.load_tenths, plan.spin_tenths, plan.drum_tenths))
    mu = -sigma * sigma / 2

    def stop(minutes: float) -> float:
        if between and chance.random() * between < minutes:
            return chance.expovariate(1.0) * plan.stop_minutes
        return 0.0

    return Draws(
        lambda frames: frames * a_frame * chance.lognormvariate(mu, sigma),
        lambda: load,
        lambda: spin,
        lambda: drum,
        stop,
    )


def season_of(plan: HousePlan, seed: int) -> Season:
    """One season by its seed."""
    chance = random.Random(seed)
    crop = max(0.2, chance.gauss(1.0, plan.spread_percent / 100))
    # The machines' chance is apart from the weather's: one more machine changes no day of rain.
    draws = house_draws(plan, random.Random(seed + 0x9E3779B9))
    env = simpy.Environment()
    total = frames_left(plan)
    hours = Hours(plan.begins.weekday(), plan.days_a_week, plan.open_minutes)
    frame_g = plan.super_g * crop * plan.kept_permille / max(1, plan.frames_a_1000)
    line = Line(env, plan, hours, draws, total, frame_g)
    trucks = Trucks(line, chance)
    env.run(until=simpy.AnyOf(env, [line.done, env.timeout(FURTHEST_DAYS * MINUTES_A_DAY)]))
    is_out = line.done.triggered
    days = int(env.now // MINUTES_A_DAY) + 1 if is_out else 0
    by_day, so_far = [], 0
    for frames in line.through[: days or FURTHEST_DAYS]:
        so_far += frames
        by_day.append(so_far)
    spans = line.spans.items()
    opened = max(1.0, hours.so_far(env.now))
    machines = (plan.uncappers, plan.uncappers + plan.extractors, plan.uncappers)
    of = [*machines, plan.extractors, plan.extractors]
    return Season(
        days,
        round(sum(last - first - line.idle.get(day, 0) for day, (first, last) in spans)),
        len(line.spans),
        round(line.out * frame_g),
        tuple(by_day),
        trucks.most,
        tuple(
            round(1_000 * lost / (opened * many))
            for lost, many in zip(line.waited, of, strict=True)
        ),
    )
