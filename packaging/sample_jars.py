"""The sample's bottlings: which drums went into which jars, and what came of the counting."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from sample_chance import Chance, Tables, at, exact_kg, kg
from sample_floor import SHOWN, USUAL_DRUM_G, Filled
from sample_house import BLEND, CLEAR, CREAMED, LARGE, NET_G, PAIL

BOTTLING_TANK, CREAMING_TANK = "Bottling tank", "Creaming tank"
OVERFILL = {CLEAR: 2.4, BLEND: 1.2, LARGE: 3.1, CREAMED: 1.9, PAIL: 6.0}
JARS_AN_HOUR = {CLEAR: 320, BLEND: 390, LARGE: 220, CREAMED: 300, PAIL: 85}
BROKEN_JAR, LABELLED_LATER, OPEN = 8, 10, 18
FEW = 25  # jars
SECOND_LIDS = 9  # the first bottling with lids of the second lot
TOO_WARM = 11  # the bottling whose drums were warmed over 40 °C
OLD_HONEY = (3, "old drum 1")  # the blend that takes a weighed part of last season's honey
SEED_PAILS = {2: 55, 10: 56, 15: 57}

# Number, day, product, jars, and how many own and bought drums are poured into a tank first.
PLAN: tuple[tuple[int, datetime, str, int, int, int], ...] = (
    (1, at(8, 4), CLEAR, 955, 0, 0),
    (2, at(8, 6), CREAMED, 1130, 2, 0),
    (3, at(8, 12), BLEND, 1500, 2, 2),
    (4, at(8, 13), LARGE, 690, 0, 0),
    (5, at(8, 18), CLEAR, 955, 0, 0),
    (6, at(8, 20), PAIL, 220, 0, 0),
    (7, at(8, 25), CLEAR, 955, 0, 0),
    (8, at(8, 27), BLEND, 1500, 2, 1),
    (9, at(8, 28), LARGE, 600, 0, 0),
    (10, at(9, 1), CREAMED, 1130, 1, 0),
    (11, at(9, 3), CLEAR, 955, 0, 0),
    (12, at(9, 8), BLEND, 1500, 2, 2),
    (13, at(9, 9), LARGE, 740, 0, 0),
    (14, at(9, 11), CLEAR, 955, 0, 0),
    (15, at(9, 15), CREAMED, 1140, 2, 0),
    (16, at(9, 21), BLEND, 1500, 2, 1),
    (17, at(9, 22), LARGE, 570, 0, 0),
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
    blends: int = 0
    seed: str = "old seed"
    over: int = 0
    last: Filled | None = None
    number: int = 0
    day: datetime = PLAN[0][1]

    def work(self) -> None:
        """Bottle all that is planned."""
        for number, day, product, jars, own, bought in PLAN:
            self.number, self.day = number, day
            time = day + timedelta(hours=9, minutes=self.chance.whole(0, 25))
            if number == OPEN:
                time = day + timedelta(hours=13, minutes=5)
            tank = {CREAMED: CREAMING_TANK, BLEND: BOTTLING_TANK, LARGE: BOTTLING_TANK}.get(
                product
            )
            time = self._pour(time, tank, own, bought, product)
            if product == CLEAR:
                jars -= self.over
                self.over = 0
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
        """What goes into a tank first is one blend: whole drums, a weighed part, and seed."""
        if not tank or not own + bought:
            return time + 20 * SHOWN
        drums = self.light if product == CREAMED else self.own
        poured = [drums.pop(0) for _ in range(own)]
        self.last = poured[-1] if poured else self.last
        self.used += own
        parts: list[dict[str, object]] = [
            {"source": one.container.lower(), "planned": kg(USUAL_DRUM_G), "whole": True}
            for one in poured
        ]
        names = [self.bought.pop(0) for _ in range(bought)]
        parts += [{"source": one, "planned": "290", "whole": True} for one in names]
        self.blends += 1
        if self.blends == OLD_HONEY[0]:
            parts.append({"source": OLD_HONEY[1], "planned": "100", "net": "100.4"})
        if product == CREAMED:
            parts.append({"source": self.seed, "planned": "27.2", "whole": True, "seed": True})
        when = self.tables.free(time + 11 * len(parts) * SHOWN)
        for part in parts:
            self.tables.add(
                "blends",
                when=when,
                blend=self.blends,
                into=tank,
                purpose="cream" if product == CREAMED else "blend",
                by="Odile Braskew",
                **part,
            )
        return when + 20 * SHOWN

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
            self.over = rest
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
        hot = "43" if self.number == TOO_WARM else "38"
        self.tables.add(
            "rooms_log",
            when=self.tables.free(self.day + timedelta(hours=7, minutes=10)),
            what="warmed",
            things=drum.container.lower(),
            temperature=hot,
            minutes=1_440,
            note="liquefied for bottling",
            by="Odile Braskew",
        )
        self.used += 1
        self.feed, self.feed_g = drum.container.lower(), drum.net_g

    def _end(
        self, time: datetime, bottling: Bottling, mean: float, *, empty: bool = False
    ) -> None:
        """Rejected jars are 0.6 % for the label, 0.4 % for the weight, 0.1 % broken."""
        rejects = round(bottling.jars * self.chance.normal(0.011, 0.003, 0.004, 0.02))
        later = bottling.number == LABELLED_LATER
        cells: dict[str, object] = {"jars": bottling.jars, "mean_net": mean, "rejects": rejects}
        cells["packaging"] = (
            "jars 1 + lids 1" if bottling.number < SECOND_LIDS else "jars 1 + lids 2"
        )
        self._write(time, "end", bottling, labelled_later=later, empty=empty, **cells)
        bottling.left = bottling.jars - rejects
        self._rejects(time + 25 * SHOWN, bottling, rejects)
        self._keep_back(time + 40 * SHOWN, bottling)

    def _rejects(self, time: datetime, bottling: Bottling, rejects: int) -> None:
        """What broke is thrown away; what is under weight or labelled crooked is scraped back."""
        broken = max(1, round(rejects / 11))
        goods = f"bottling {bottling.number}"
        cells: dict[str, object] = {
            "goods": goods,
            "jars": broken,
            "reason": "broke at the capper",
        }
        self.tables.add("returns", when=self.tables.free(time), what="thrown away", **cells)
        if rejects == broken:
            return
        self.tables.add(
            "drums",
            when=self.tables.free(time + 8 * SHOWN),
            what="scrape back",
            source=goods,
            into=CREAMING_TANK if bottling.product == CREAMED else BOTTLING_TANK,
            jars=rejects - broken,
            by="Odile Braskew",
        )

    def _keep_back(self, time: datetime, bottling: Bottling) -> None:
        """A jar of each bottling stays on the shelf; a pail of creamed honey seeds the next."""
        if bottling.product != PAIL:
            bottling.left -= 1
            self.tables.add(
                "quality",
                when=self.tables.free(time),
                what="sample",
                target=f"bottling {bottling.number}",
                net=exact_kg(NET_G[bottling.product]),
                purpose="kept back",
                kept_at=f"shelf 2, place {bottling.number}",
                by="Cass Doverling",
            )
        if bottling.product == CREAMED:
            number = SEED_PAILS[bottling.number]
            cells: dict[str, object] = {"source": CREAMING_TANK, "container": f"Pail {number}"}
            when = self.tables.free(time + 15 * SHOWN)
            self.tables.add("drums", when=when, what="fill", net="27.2", **cells)
            self.seed = f"pail {number}"

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
    _refuse(tables, names[-1])
    return names[:-1]


def _refuse(tables: Tables, name: str) -> None:
    """Held as it came, and sent back when there is a truck that way."""
    tables.add(
        "quality",
        when=tables.free(at(9, 14, 11, 30)),
        what="hold",
        target=name,
        reason="20.4 %: refused, goes back to the supplier",
        by="Nell Varrowby",
    )
    tables.add(
        "quality",
        when=tables.free(at(9, 24, 13, 45)),
        what="release",
        target=name,
        reason="it went back to the supplier",
        by="Nell Varrowby",
    )
    tables.add(
        "bulk",
        when=tables.free(at(9, 24, 13, 30)),
        what="sent back",
        of=name,
        reason="20.4 %: over the 18.5 % of the contract",
        carrier="Skelbow Haulage",
        by="Wim Haskerly",
    )
