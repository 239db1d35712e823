"""The line of a honey house, event by event: uncapping, extractors and tanks, with their people.

Loads of frames are what moves: one load is uncapped, spun and runs into a tank. People are at one
thing at a time, and the line stands still outside of its hours. How long things take is drawn by
whoever makes the line. Minutes count from midnight before the first day.
"""

from collections import deque
from collections.abc import Callable, Generator
from dataclasses import dataclass
from typing import Any

import simpy

from honeyledger.services.season_needs import FURTHEST_DAYS
from honeyledger.services.season_plan import DAYS_A_WEEK, MINUTES_A_DAY, HousePlan

Process = Generator[simpy.Event, Any, None]
OPENS_MIN = 7 * 60  # common practice, no source


class Hours:
    """When the line runs: the same stretch of each work day; the week's last days are off."""

    def __init__(self, first_weekday: int, days_a_week: int, open_minutes: int) -> None:
        self._begins = min(OPENS_MIN, MINUTES_A_DAY - open_minutes)
        self._ends = self._begins + open_minutes
        days = FURTHEST_DAYS + 2 * DAYS_A_WEEK
        self.works = [(first_weekday + day) % DAYS_A_WEEK < days_a_week for day in range(days)]
        self._before = [0]
        for works in self.works:
            self._before.append(self._before[-1] + open_minutes * works)

    def until_open(self, now: float) -> float:
        """Minutes until work goes on; 0 while it does."""
        day, minute = divmod(now, MINUTES_A_DAY)
        at = int(day)
        if self.works[at] and minute < self._ends:
            return max(0.0, self._begins - minute)
        at += 1
        while not self.works[at]:
            at += 1
        return at * MINUTES_A_DAY + self._begins - now

    def so_far(self, now: float) -> float:
        """Minutes of work there were until now."""
        day, minute = divmod(now, MINUTES_A_DAY)
        at = int(day)
        today = min(max(minute - self._begins, 0.0), self._ends - self._begins)
        return self._before[at] + (today if self.works[at] else 0.0)


class AlwaysOpen(Hours):
    """A line that never stands still, as formulas have it."""

    def __init__(self) -> None:
        super().__init__(0, DAYS_A_WEEK, MINUTES_A_DAY)

    def until_open(self, now: float) -> float:
        return 0.0

    def so_far(self, now: float) -> float:
        return now


@dataclass(slots=True)
class Draws:
    """How long things take, in minutes; drawn anew each time."""

    uncap: Callable[[float], float]
    load: Callable[[], float]
    spin: Callable[[], float]
    drum: Callable[[], float]
    stop: Callable[[float], float]


class Pool:
    """Hands, or places, that are taken and given back; who waits is served in order."""

    __slots__ = ("_env", "_waiting", "free")

    def __init__(self, env: simpy.Environment, count: int) -> None:
        self._env, self.free = env, count
        self._waiting: deque[simpy.Event] = deque()

    def take(self) -> simpy.Event | None:
        """None where there was one; else what to wait for."""
        if self.free:
            self.free -= 1
            return None
        event = self._env.event()
        self._waiting.append(event)
        return event

    def give(self) -> None:
        """One is back."""
        if self._waiting:
            self._waiting.popleft().succeed()
        else:
            self.free += 1


class Bell:
    """Those who wait until something changes, and look again."""

    __slots__ = ("_env", "_waiting")

    def __init__(self, env: simpy.Environment) -> None:
        self._env = env
        self._waiting: list[simpy.Event] = []

    def wait(self) -> simpy.Event:
        """Until it rings."""
        event = self._env.event()
        self._waiting.append(event)
        return event

    def ring(self) -> None:
        """Something has changed."""
        waiting, self._waiting = self._waiting, []
        for event in waiting:
            event.succeed()


class Line:
    """Uncapping, extractors and tanks, with the people at them.

    Args:
        total: frames to come in all; the line ends with the last of them.
        room: loads of uncapped frames that may stand before the extractors.
        frame_g: honey in a frame that comes into a tank.
    """

    def __init__(
        self,
        env: simpy.Environment,
        plan: HousePlan,
        hours: Hours,
        draws: Draws,
        total: int,
        frame_g: float,
    ) -> None:
        self.env, self.plan, self.hours, self.draws = env, plan, hours, draws
        self.total, self.frame_g = total, frame_g
        self.room = 2 * plan.extractors
        self.ready: deque[list[float]] = deque()  # when it was warm, frames left on the pallet
        self.loads: deque[tuple[float, int]] = deque()
        self.taken = self.out = 0
        self.crew = Pool(env, plan.crew)
        self.supply, self.uncapped, self.drawn = Bell(env), Bell(env), Bell(env)
        self.places = Pool(env, plan.places)
        self.on_place = Bell(env)
        self.tanks = Tanks(self)
        self.done = env.event()
        self.through = [0] * (FURTHEST_DAYS + 1)
        self.spans: dict[int, list[float]] = {}
        self.idle: dict[int, float] = {}
        self.waited = [0.0] * 5
        self.uncap_waits: list[float] = []
        self.spin_waits: list[float] = []
        for _ in range(plan.uncappers):
            env.process(self._uncap())
        for _ in range(plan.extractors):
            env.process(self._spin())

    def bring(self, frames: int) -> None:
        """A pallet of so many frames is warm."""
        self.ready.append([self.env.now, frames])
        self.supply.ring()

    def _next(self) -> tuple[float, int] | None:
        """Frames for one load, off the oldest pallets, and since when they were warm."""
        if not self.ready:
            return None
        since, want = self.ready[0][0], self.plan.frames_a_load
        got = 0
        while self.ready and got < want:
            pallet = self.ready[0]
            part = int(min(want - got, pallet[1]))
            pallet[1] -= part
            got += part
            if pallet[1] <= 0:
                self.ready.popleft()
                self.places.free += 1
        self.taken += got
        return since, got

    def _lost(self, at: int, since: float) -> None:
        now = self.env.now
        if now > since:
            self.waited[at] += self.hours.so_far(now) - self.hours.so_far(since)

    def _idle(self, since: float) -> None:
        """Between two loads of a day there were no warm supers: people do something else."""
        day = int(self.env.now // MINUTES_A_DAY)
        if day in self.spans and since > self.spans[day][0]:
            idle = (self.env.now - since) / self.plan.uncappers
            self.idle[day] = self.idle.get(day, 0.0) + idle

    def _uncap(self) -> Process:
        env, crew, draws = self.env, self.crew, self.draws
        while True:
            began = env.now
            while not self.ready:
                if self.taken >= self.total:
                    return
                yield self.supply.wait()
            if closed := self.hours.until_open(env.now):
                yield env.timeout(closed)
                if not self.ready:
                    continue
            self._lost(0, began)
            self._idle(began)
            load = self._next()
            assert load is not None
            self._note()
            began = env.now
            if (hands := crew.take()) is not None:
                yield hands
                self._lost(1, began)
            self.uncap_waits.append(env.now - load[0])
            minutes = draws.uncap(load[1])
            yield env.timeout(minutes)
            self._note()
            crew.give()
            if stop := draws.stop(minutes):
                yield env.timeout(stop)
            began = env.now
            while len(self.loads) >= self.room:
                yield self.drawn.wait()
            self._lost(2, began)
            self.loads.append((env.now, load[1]))
            self.uncapped.ring()

    def _spin(self) -> Process:
        env, crew, draws = self.env, self.crew, self.draws
        while True:
            began = env.now
            while not self.loads:
                yield self.uncapped.wait()
            if closed := self.hours.until_open(env.now):
                yield env.timeout(closed)
                if not self.loads:
                    continue
            self._lost(3, began)
            since, frames = self.loads.popleft()
            self.drawn.ring()
            began = env.now
            if (hands := crew.take()) is not None:
                yield hands
                self._lost(1, began)
            self.spin_waits.append(env.now - since)
            self._note()
            yield env.timeout(draws.load())
            crew.give()
            yield env.timeout(draws.spin())
            began = env.now
            yield from self.tanks.fill(frames * self.frame_g)
            self._lost(4, began)
            self._through(frames)

    def _note(self) -> None:
        """The line works now: each day from its first load to its last."""
        now = self.env.now
        self.spans.setdefault(int(now // MINUTES_A_DAY), [now, now])[1] = now

    def _through(self, frames: int) -> None:
        day = int(self.env.now // MINUTES_A_DAY)
        if day < len(self.through):
            self.through[day] += frames
        span = self.spans.get(day)
        if span is not None:
            span[1] = self.env.now
        self.out += frames
        if self.out >= self.total and not self.done.triggered:
            self.done.succeed()


class Tanks:
    """Settling tanks: one is filled while others rest; without rest drums are drawn meanwhile."""

    def __init__(self, line: Line) -> None:
        self._line, self._env = line, line.env
        plan = line.plan
        self._size = float(plan.tank_g if plan.settle_hours else plan.tank_g * plan.tanks)
        self._free = plan.tanks
        self._level = 0.0
        self._is_open = not plan.settle_hours
        self._room, self._more = Bell(line.env), Bell(line.env)
        if self._is_open:
            line.env.process(self._draw_on())

    def fill(self, grams: float) -> Process:
        """Honey comes over; it waits until there is room. What is too much for any goes in."""
        while not self._take(grams):
            yield self._room.wait()
        if self._line.plan.settle_hours == 0:
            self._more.ring()

    def _take(self, grams: float) -> bool:
        if self._is_open and (self._level + grams <= self._size or self._level <= 0):
            self._level += grams
            return True
        if self._line.plan.settle_hours == 0:
            return False
        if self._is_open:
            self._env.process(self._settle(self._level))
            self._is_open, self._level = False, 0.0
        if not self._free:
            return False
        self._free -= 1
        self._is_open, self._level = True, grams
        return True

    def _draw_on(self) -> Process:
        drum_g = self._line.plan.drum_g
        while True:
            while self._level < min(drum_g, self._size):
                yield self._more.wait()
            yield from self._drum()
            self._level = max(0.0, self._level - drum_g)
            self._room.ring()

    def _settle(self, grams: float) -> Process:
        plan = self._line.plan
        yield self._env.timeout(plan.settle_hours * 60)
        while grams > 0:
            yield from self._drum()
            grams -= plan.drum_g
        self._free += 1
        self._room.ring()

    def _drum(self) -> Process:
        line = self._line
        if closed := line.hours.until_open(self._env.now):
            yield self._env.timeout(closed)
        if (hands := line.crew.take()) is not None:
            yield hands
        yield self._env.timeout(line.draws.drum())
        line.crew.give()
