"""Random deeds of blending: parts into a vessel, heat, ingredients and packaging."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import PURPOSES, Blend, Portion
from honeyledger.ledger.verbs.stops import Stop
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.ledger.verbs.warming import Warm
from tests.support.random_choice import DESPITE
from tests.support.random_hot_room import HotRoomDeeds


class BlendingDeeds(HotRoomDeeds):
    """Blends of drums, vessels and what is added, each in many ways."""

    def do_blend(self) -> None:
        """Some parts go into a vessel, weighed or whole, seeded or not."""
        parts = tuple(self._portion() for _ in range(self.random.randint(1, 3)))
        purpose = self.random.choice(PURPOSES)
        self.say(Blend(self.vessel(), parts, purpose, despite_hold=DESPITE), self.a_run())

    do_blend_more = do_blend

    def _portion(self) -> Portion:
        source = self.random.choice((self.lot("DPWA"), self.lot("D"), self.vessel(full=True)))
        whole = self.chance(0.3)
        weight = Weight() if whole else Weight(net_g=self.grams(30_000))
        planned_g = self.random.choice((None, self.grams(30_000)))
        return Portion(source, weight, planned_g, whole, seed=self.chance(0.3))

    def do_warm(self) -> None:
        """A drum, a vessel or jars are warmed."""
        what = self.random.choice((self.lot("DJK"), self.vessel(full=True)))
        self.say(Warm(what, self.random.randint(300, 800), self.grams(600)))

    def do_stop(self) -> None:
        """A line stands still for a while."""
        reason = self.random.choice(("pump", "break", "rain"))
        self.say(Stop(self.vessel(), reason, self.grams(60)), self.a_run())

    def do_supply(self) -> None:
        """An ingredient or packaging comes in."""
        facts = (
            Supply("Glass Works", "ingredient", "Cinnamon", Weight(net_g=self.grams(20_000))),
            Supply("Glass Works", "packaging", "Jars", count=self.grams(500)),
        )
        self.say(self.random.choice(facts))
