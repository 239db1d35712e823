"""The sample's bottlings: which drums went into which jars, and what came of the counting."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from sample_chance import Chance, Tables, at, kg
from sample_floor import SHOWN, Filled
from sample_house import BLEND, CLEAR, CREAMED, LARGE, NET_G, PAIL

BOTTLING_TANK, CREAMING_TANK = "Bottling tank", "Creaming tank"
OVERFILL = {CLEAR: 2.4, BLEND: 1.2, LARGE: 3.1, CREAMED: 1.9, PAIL: 6.0}
JARS_AN_HOUR = {CLEAR: 320, BLEND: 390, LARGE: 220, CREAMED: 300, PAIL: 85}
BROKEN_JAR, LABELLED_LATER, OPEN = 8, 10, 18
FEW = 25  # jars

# Number, day, product, jars, and how many own and bought drums are poured into a tank first.
PLAN: tuple[tuple[int, datetime, str, int, int, int], ...] = (
    (1, at(8, 4), CLEAR, 870, 0, 0),
    (2, at(8, 6), CREAMED, 1130, 2, 0),
    (3, at(8, 12), BLEND, 1500, 2, 2),
    (4, at(8, 13), LARGE, 680, 0, 0),
    (5, at(8, 18), CLEAR, 870, 0, 0),
    (6, at(8, 20), PAIL, 220, 0, 0),
    (7, at(8, 25), CLEAR, 870, 0, 0),
    (8, at(8, 27), BLEND, 1500, 2, 1),
    (9, at(8, 28), LARGE, 590, 0, 0),
    (10, at(9, 1), CREAMED, 1130, 1, 0),
    (11, at(9, 3), CLEAR, 870, 0, 0),
    (12, at(9, 8), BLEND, 1500, 2, 2),
    (13, at(9, 9), LARGE, 730, 0, 0),
    (14, at(9, 11), CLEAR, 870, 0, 0),
    (15, at(9, 15), CREAMED, 1140, 2, 0),
    (16, at(9, 21), BLEND, 1500, 2, 1),
    (17, at(9, 22), LARGE, 560, 0, 0),
    (18, at(9, 25), CLEAR, 425, 0, 0),
)


@dataclass
class Bottling:
    """A bottling as it went; `left` are the jars still in the store."""

    number: int
    product: str
    day: datetime
    jars: int
    left: int = 0


@dataclass
class BottlingRoom:
    """The drums set aside for jars, and what stands open."""

    tables: Tables
    chance: Chance
    light: list[Filled]
    own: list[Filled]
    bought: list[str]
    feed: str = ""
    feed_g: int = 0
    done: list[Bottling] = field(default_factory=list)
    used: int = 0
    last: Filled | None = None

    def work(self) -> None:
        """Bottle all that is planned."""
        for number, day, product, jars, own, bought in PLAN:
            time = day + timedelta(hours=9, minutes=self.chance.whole(0, 25))
            if number == OPEN:
                time = day + timedelta(hours=13, minutes=5)
            tank = {CREAMED: CREAMING_TANK, BLEND: BOTTLING_TANK, LARGE: BOTTLING_TANK}.get(
                product
            )
            time = self._pour(time, tank, own, bought, product)
            bottling = Bottling(number, product, day, jars)
            if tank:
                self._from_tank(bottling, time, tank)
            else:
                self._from_drums(bottling, time)
            if number != OPEN:
                self._read(bottling, day + timedelta(days=1, hours=8, minutes=35))
                self._sort_out(bottling, day + timedelta(hours=16))
                self.done.append(bottling)

    def _pour(
        self, time: datetime, tank: str | None, own: int, bought: int, product: str
    ) -> datetime:
        drums = self.light if product == CREAMED else self.own
        poured = [drums.pop(0) for _ in range(own)]
        names = [one.container.lower() for one in poured]
        self.last = poured[-1] if poured else self.last
        self.used += own
        names += [self.bought.pop(0) for _ in range(bought)]
        for name in names:
            self.tables.add(
                "drums",
                when=self.tables.free(time),
                what="pour",
                source=name,
                into=tank,
                whole=True,
                by="Odile Braskew",
            )
            time += 11 * SHOWN
        return time + 20 * SHOWN

    def _write(self, time: datetime, what: str, bottling: Bottling, **cells: object) -> None:
        when = self.tables.free(time)
        self.tables.add("bottling", when=when, what=what, bottling=bottling.number, **cells)

    def _hours(self, bottling: Bottling, jars: int) -> timedelta:
        return timedelta(hours=jars / JARS_AN_HOUR[bottling.product])

    def _mean_g(self, product: str) -> float:
        """Checked mean net of ten jars, to a tenth of a gram."""
        over = OVERFILL[product]
        return round(NET_G[product] + self.chance.normal(over, over / 3, 0.3, over * 2), 1)

    def _from_tank(self, bottling: Bottling, time: datetime, tank: str) -> None:
        self._write(time, "start", bottling, product=bottling.product, source=tank)
        end = time + self._hours(bottling, bottling.jars)
        self._end(end, bottling, self._mean_g(bottling.product))

    def _from_drums(self, bottling: Bottling, time: datetime) -> None:
        """Straight from drums; each that runs empty is a change-over."""
        if not self.feed:
            self._next_drum()
        self._write(time, "start", bottling, product=bottling.product, source=self.feed)
        filled = 0
        while True:
            mean = self._mean_g(bottling.product)
            clings = self.chance.whole(250, 900)
            can = int((self.feed_g - clings) / mean)
            if can >= bottling.jars - filled:
                break
            filled += can
            self._next_drum()
            cells: dict[str, object] = {"jars": filled, "mean_net": mean, "empty": True}
            after = time + self._hours(bottling, filled)
            self._write(after, "change", bottling, source=self.feed, **cells)
        rest = can - (bottling.jars - filled)
        empty = rest < FEW and bottling.number != OPEN
        if empty:
            bottling.jars += rest  # not worth keeping: the drum is emptied
        self.feed_g -= round((bottling.jars - filled) * mean)
        end = time + self._hours(bottling, bottling.jars)
        if bottling.number == OPEN:
            # Still being filled: the counter was read when the shift changed.
            self._write(end, "change", bottling, jars=bottling.jars, mean_net=mean)
            return
        if empty:
            self.feed = ""
        self._end(end, bottling, mean, empty=empty)

    def _next_drum(self) -> None:
        drum = self.last = self.own.pop(0)
        self.used += 1
        self.feed, self.feed_g = drum.container.lower(), drum.net_g

    def _end(
        self, time: datetime, bottling: Bottling, mean: float, *, empty: bool = False
    ) -> None:
        """Rejected jars are 0.6 % for the label, 0.4 % for the weight, 0.1 % broken."""
        rejects = round(bottling.jars * self.chance.normal(0.011, 0.003, 0.004, 0.02))
        later = bottling.number == LABELLED_LATER
        cells: dict[str, object] = {"jars": bottling.jars, "mean_net": mean, "rejects": rejects}
        self._write(time, "end", bottling, labelled_later=later, empty=empty, **cells)
        bottling.left = bottling.jars - rejects
        when = self.tables.free(time + 25 * SHOWN)
        goods = f"bottling {bottling.number}"
        reason = "labels crooked, or under weight"
        self.tables.add(
            "returns", when=when, what="thrown away", goods=goods, jars=rejects, reason=reason
        )

    def _read(self, bottling: Bottling, time: datetime) -> None:
        """A jar of each bottling is read the next morning; bought honey makes a blend darker."""
        if self.last is None or time > at(9, 25, 15, 40):
            return
        darker = 15 if bottling.product in (BLEND, LARGE) else 0
        self.tables.add(
            "readings",
            when=self.tables.free(time),
            lot=f"bottling {bottling.number}",
            moisture=f"{self.last.moisture / 100:.1f}",
            colour=self.last.colour // 10 + darker,
            instrument="Refractometer 1",
        )

    def _sort_out(self, bottling: Bottling, time: datetime) -> None:
        """A jar broke at the filler: forty around it are held with it, and thrown away."""
        if bottling.number != BROKEN_JAR:
            return
        goods = f"bottling {bottling.number}"
        reason = "a jar broke at the filler: 40 around it may hold glass"
        add, free = self.tables.add, self.tables.free
        add("quality", when=free(time), what="hold", target=goods, reason=reason)
        glass = "a jar broke beside them"
        add(
            "returns",
            when=free(time + 20 * SHOWN),
            what="thrown away",
            goods=goods,
            jars=41,
            reason=glass,
        )
        add(
            "quality",
            when=free(time + 45 * SHOWN),
            what="release",
            target=goods,
            reason="the 41 jars are thrown away, the filler is clean",
            by="Nell Varrowby",
        )
        bottling.left -= 41


def write_bought(tables: Tables, chance: Chance) -> list[str]:
    """Ten drums in three lots of the supplier's; the last one is too wet and is refused.

    The second lot comes without its certificate, and is on hold until the certificate is there.
    """
    names = []
    for day, lot, number, certificate in (
        (at(8, 10), "AM-2207", 4, "LR 40771"),
        (at(8, 24), "AM-2231", 3, ""),
        (at(9, 14), "AM-2260", 3, "LR 41206"),
    ):
        for place in range(number):
            name = f"bought {len(names) + 1}"
            names.append(name)
            time = day + timedelta(hours=10, minutes=5 + 4 * place)
            net = round(chance.normal(290_500, 1_500, 287_000, 294_000) / 100) * 100
            tables.add(
                "bought",
                when=tables.free(time),
                lot=name,
                supplier="Ambrallo Mieles",
                their_lot=lot,
                country="AR",
                certificate=certificate,
                gross=kg(net + 17_500),
                tare="17.5",
                by="Wim Haskerly",
            )
            wet = 20.4 if len(names) == 10 else chance.normal(18.2, 0.12, 17.9, 18.5)
            tables.add(
                "readings",
                when=tables.free(time + 40 * SHOWN),
                lot=name,
                moisture=f"{wet:.1f}",
                colour=round(chance.normal(62, 1.5, 58, 66)),
                instrument="Refractometer 1",
            )
            if not certificate:
                tables.add(
                    "quality",
                    when=tables.free(day + timedelta(days=3, hours=9, minutes=2 * place)),
                    what="release",
                    target=name,
                    reason="the laboratory's report came by post",
                    certificate="LR 40902",
                    by="Nell Varrowby",
                )
    tables.add(
        "quality",
        when=tables.free(at(9, 14, 11, 30)),
        what="hold",
        target=names[-1],
        reason="20.4 %: refused, goes back to the supplier",
        by="Nell Varrowby",
    )
    return names[:-1]
