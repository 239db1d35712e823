"""Random deeds out in the yards and with other people's honey."""

from honeyledger.ledger.verbs.checks import Check
from honeyledger.ledger.verbs.measuring import Calibrate
from honeyledger.ledger.verbs.owners import Pool, Settle
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.weather import Weather
from honeyledger.ledger.verbs.yards import Certify, Disease, FeedYard, SupersOn, Treat
from tests.support.random_choice import YARDS, RandomBooks

DAYS = ("2026-06-01", "2026-06-20", "2026-07-10", "2026-07-23", "")


class YardDeeds(RandomBooks):
    """Yards by their dates, equipment checked, runs pooled and settled."""

    def do_yard(self) -> None:
        """Supers on, a treatment, feeding, a disease, a certificate or a check."""
        yard, day = self.random.choice(YARDS), self.random.choice(DAYS)
        on = self.random.choice((None, None, True, False))
        facts = (
            SupersOn(yard, self.random.randint(1, 60), day),
            Treat(yard, "Strips", first_day=day, clear_day="2026-07-25", supers_on=on),
            FeedYard(yard, "syrup", day, self.grams(50_000), on),
            FeedYard(yard, "", "", self.grams(9_000), on, self.lot("D", ["drum"])),
            FeedYard(yard, source=self.lot("J", ["jars"]), jars=self.random.randint(1, 9)),
            Disease(yard, "chalkbrood", day),
            Disease(yard, until="2026-07-24"),
            Certify(yard, "MV-7", first_day=day),
            Calibrate("Scale 1", 1_800, 1_800 - self.random.choice((0, 40))),
            Check("Tank", "mesh", self.random.choice(("ok", "off"))),
            PutOnHold("the sieve", "mesh broke", lots=(self.lot("TDJ"), self.lot("SPW"))),
            Check("", "Pests", self.random.choice(("ok", "off")), listed="pests"),
            Treat(yard, "Pads", first_day=day, supers_on=on, interval="2 weeks"),
            Weather(self.random.choice(("rain", "heat", "")), day, yard, note="seen"),
            Printed("season-book", day, self.random.choice((1, 2))),
        )
        self.say(self.random.choice(facts))

    def an_owner(self) -> str:
        """Whose supers they are: mostly the house's."""
        return "Vale" if self.chance(0.1) else ""

    def do_owner(self) -> None:
        """An agreement to pool, a settlement, a register of somebody's scale."""
        run = self.runs[-1] if self.runs else ""
        drum = self.lot("D", ["drum"])
        drums = ((drum, "Vale"),) if self.chance(0.3) else ()
        facts = (
            Pool("agreed", run),
            Settle(run, self.random.choice((0, 100)), drums),
            Register("equipment", {"name": f"Scale {self.grams(9)}"}),
        )
        self.say(self.random.choice(facts))
