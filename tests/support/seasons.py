"""Whole seasons in the simulated house: days of every deed, and then the truth against the books.

`holes` says which sources truly stand in a drum, jar, barrel or sample and are missing from the
reach of its code.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.services.house import Recorded
from honeyledger.services.tracing import trace_back
from tests.support.drum_room import LOOKED_AT, DrumRoom
from tests.support.houses import MINUTE_MS
from tests.support.physics import Bottling, Content, Drum, Spot, Vessel
from tests.support.workdays import DAY_MS, MIDNIGHT_MS

OPENS_MS, SHUTS_MS, NIGHT_MS = (hour * 60 * MINUTE_MS for hour in (7, 17, 21))
MISREAD = 20  # jars a change-over may be off; the jar margin is 24


class Hole(NamedTuple):
    """Sources truly there and not in the reach of a code."""

    code: str
    what: str
    missing: frozenset[str]


@dataclass(frozen=True, slots=True)
class Width:
    """How wide reach is: sources in reach, and truly there, summed over what was compared."""

    compared: int
    reached: int
    truly: int


class Season(DrumRoom):
    """Some days of everything."""

    def bottle(self) -> None:
        """A bottling begins, goes on, changes over or ends."""
        open_now = [one for one in self.world.bottlings if not one.closed]
        if not open_now:
            self._begin_bottling()
            return
        bottling = open_now[0]
        ran = bottling.run(self.random.randint(15, 90))
        if ran == 0 or bottling.jars > 400 or self.chance(0.2):
            self._end_bottling(bottling)
        elif self.chance(0.4):
            self._change_over(bottling)

    def _begin_bottling(self) -> None:
        feed: Vessel | Drum | None = self.world.bottling_tank
        head = self.world.bottling_tank.outlet
        if self.chance(0.3):
            feed = self.pick([one for one in self._drums_with_honey() if one.bunged])
            head = Spot()
        if feed is None or feed.total_g < 10_000:
            return
        bottling = Bottling(feed, head, jar_g=503)
        self.world.bottlings.append(bottling)
        bottling.run(self.random.randint(15, 90))

        def learned(recorded: Recorded) -> None:
            bottling.code = recorded.given[0]

        self.note(
            "bottling",
            {bottling, feed},
            lambda: (
                ChangeOver(product="Jar", feed=_scanned(feed), despite_hold=LOOKED_AT)
                if _scanned(feed)
                else None
            ),
            done=learned,
            in_order=True,
        )

    def _change_over(self, bottling: Bottling) -> None:
        """The jars so far are noted; from one drum the next one is taken."""
        feed = bottling.feed
        if isinstance(feed, Drum):
            others = [one for one in self._drums_with_honey() if one.bunged and one is not feed]
            feed = self.pick(others)
            if feed is None:
                return
        counter = bottling.jars
        misread = self.random.randint(0, MISREAD)
        keys = {bottling, bottling.feed, feed}
        bottling.feed = feed

        def facts() -> ChangeOver | None:
            if not _scanned(feed):
                return None
            jars = min(counter + misread, bottling.jars)
            return ChangeOver(bottling.code, "", _scanned(feed), jars, despite_hold=LOOKED_AT)

        self.note("bottling", keys, facts, in_order=True)

    def _end_bottling(self, bottling: Bottling) -> None:
        bottling.closed = True
        jars = bottling.jars
        rejects = self.random.choice((0, 0, 3))
        self.note(
            "bottling",
            {bottling, bottling.feed},
            lambda: Bottle(bottling.code, jars, rejects=rejects, despite_hold=LOOKED_AT),
            in_order=True,
        )

    def scrape_back(self) -> None:
        """Jars of a closed bottling are scraped back into a tank."""
        closed = [one for one in self.world.bottlings if one.closed and one.left > 10]
        bottling = self.pick(closed)
        if bottling is None:
            return
        jars = self.random.randint(1, bottling.left)
        bottling.left -= jars
        sources = self.random.choice(bottling.stretches).sources
        into = self._somewhere()
        into.pour({source: 490.0 * jars / len(sources) for source in sources})
        self.note(
            "bottling",
            {bottling, into},
            lambda: Fill(bottling.code, into=into.code, jars=jars, despite_hold=LOOKED_AT),
        )

    def send(self) -> None:
        """A drum or jars go to the shop."""
        if self.chance(0.5):
            self._send_jars()
        else:
            self._send_drum()

    def _send_jars(self) -> None:
        closed = [one for one in self.world.bottlings if one.closed and one.left > 10]
        bottling = self.pick(closed)
        if bottling is None:
            return
        jars = self.random.randint(1, bottling.left)
        bottling.left -= jars

        def facts() -> Dispatch:
            return Dispatch("Shop", (DispatchLine(bottling.code, jars=jars),))

        self.note("bottling", {bottling}, facts)

    def _send_drum(self) -> None:
        drum = self.pick([one for one in self._drums_with_honey() if one.bunged])
        if drum is None or any(drum is one.feed for one in self.world.bottlings):
            return
        drum.gone = True
        sent = Content(drum.spot.sources)
        self.world.watch("drum sent", sent)

        label = drum.code_on()

        def facts() -> Dispatch | None:
            sent.code = label()
            return Dispatch("Shop", (DispatchLine(sent.code),)) if sent.code else None

        self.note("drums", {drum}, facts)

    def drum_comes_home(self) -> None:
        """An empty container comes back from the shop, as it is."""
        drum = self.pick([one for one in self.world.drums if one.gone and one.container])
        if drum is not None:
            drum.gone = False
            drum.spot.drain()

    # The days.

    def live(self, days: int) -> "Season":
        """Work the days, and then write down all that is left."""
        deeds = {
            self.receive: 5,
            self.load: 9,
            self.pump: 6,
            self.fill_drum: 8,
            self.top_up: 2,
            self.bung: 2,
            self.pour: 5,
            self.transfer: 3,
            self.bottle: 6,
            self.scrape_back: 1,
            self.send: 3,
            self.drum_comes_home: 1,
            self.wash: 3,
            self.weigh_cappings: 1,
            self.drain_barrel: 1,
            self.sample: 2,
            self.buy: 0.5,
            self.split: 0.7,
            self.join: 0.7,
            self.weigh_again: 0.5,
            self.run: 1,
        }
        for day in range(days):
            midnight_ms = MIDNIGHT_MS + day * DAY_MS
            self.crew.begin_day()
            self.now_ms = midnight_ms + OPENS_MS
            while self.now_ms < midnight_ms + SHUTS_MS:
                self.crew.catch_up(self.now_ms)
                (deed,) = self.random.choices(list(deeds), list(deeds.values()))
                deed()
                self.now_ms += int(self.random.expovariate(1 / 9) * MINUTE_MS)
            self.crew.catch_up(midnight_ms + NIGHT_MS)
        for bottling in self.world.bottlings:
            if not bottling.closed:
                self._end_bottling(bottling)
        self.crew.catch_up(self.now_ms + 4 * DAY_MS)
        return self

    def compare(self) -> tuple[list[Hole], Width]:
        """All that was watched, and every stretch of every bottling, against the reach."""
        holes, widths = [], []
        for what, code, sources in self._watched():
            trace = self.built.house.ask(lambda view, code=code: trace_back(view, code))
            reach = {row.code for row in trace.ancestors}
            widths.append((len(reach), len(sources)))
            if missing := sources - reach:
                holes.append(Hole(code, what, frozenset(missing)))
        reached, truly = (sum(column) for column in zip(*widths, strict=True))
        return holes, Width(len(widths), reached, truly)

    def _watched(self) -> Iterator[tuple[str, str, frozenset[str]]]:
        for one in self.world.checked:
            if code := one.code():
                yield one.what, code, one.sources
        for bottling in self.world.bottlings:
            if not bottling.code or not bottling.jars:
                continue
            yield "jar lot", bottling.code, bottling.sources
            lot = parse_code(bottling.code)
            assert isinstance(lot, Code)
            for stretch in bottling.stretches:
                for serial in sorted({stretch.first, stretch.last}):
                    yield "jar", str(make_jar_code(lot, serial)), stretch.sources


def _scanned(feed: Vessel | Drum) -> str:
    """The code on a vessel or container, or on a one-way drum's label."""
    return feed.code if isinstance(feed, Vessel) else feed.container or feed.code_on()()
