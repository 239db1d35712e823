"""Random deeds of the hot room and the by-products."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.by_products import Chunk, Cut, Melt
from honeyledger.ledger.verbs.hot_room import Dry, RoomLog
from honeyledger.ledger.verbs.leftovers import ENDS, WHYS, SetAside
from tests.support.random_choice import DESPITE, YARDS, RandomBooks


class HotRoomDeeds(RandomBooks):
    """Drying, leftovers, wax and comb, each in many ways."""

    def do_room(self) -> None:
        """The hot room's air is read."""
        self.say(RoomLog("Hot room", self.random.randint(250, 450), self.random.randint(0, 9_000)))

    def do_dry(self) -> None:
        """Water leaves supers, a drum or a vessel, or comes in; by readings or on the scale."""
        what = self.random.choice((self.tag(), self.lot("S", ["pallet"]), self.lot("DPW")))
        if self.chance(0.3):
            what = self.vessel(full=True)
        before = self.random.randint(1_750, 2_050) if self.chance(0.8) else None
        after = self.random.randint(1_650, 1_900) if self.chance(0.8) else None
        net_g = self.random.randint(60_000, 150_000) if after is None or self.chance(0.2) else None
        room = self.random.choice(("", "Hot room"))
        why = "read anew" if self.chance(0.8) else ""
        weight = Weight(net_g=net_g)
        self.say(Dry(what, before, after, weight, room, despite_reading=why), self.a_run())

    do_dry_more = do_dry

    def do_set_aside(self) -> None:
        """Supers or frames do not go through; some are found when they are loaded already."""
        to = self.random.choice(ENDS)
        count = self.random.randint(1, 6)
        facts = SetAside(
            self.random.choice((self.tag(), self.loaded_tag(), self.loaded_tag())),
            self.random.choice(WHYS),
            to,
            *self.random.choice(((count, None), (count, None), (None, count))),
            pull=self.lot("S", ["pallet"]) if self.chance(0.2) else "",
            loaded=self.chance(0.3),
            yard=self.random.choice(YARDS) if to == "bees" else "",
            despite_hold=DESPITE,
        )
        self.say(facts, self.a_run())

    do_set_aside_more = do_set_aside

    def do_melt(self) -> None:
        """A melter gives wax and honey, of what was tipped in or of what nobody scanned."""
        melter = self.random.choice(("Melter", "Melter", self.vessel(full=True)))
        held = self.held_g(melter) or 20_000
        wax_g = self.random.randint(0, held // 3)
        honey_g = self.random.choice((0, self.random.randint(1, held)))
        facts = Melt(
            melter,
            wax_g,
            honey_g,
            self.random.choice((0, 700)),
            self.random.choice(("", self.vessel())),
            goes_on=self.chance(0.5),
            despite_hold=DESPITE,
        )
        self.say(facts, self.a_run())

    def do_cut(self) -> None:
        """Supers are cut into comb, all of a pallet or a part; some runs out, some is cut off."""
        facts = Cut(
            self.tag(),
            self.random.randint(1, 200),
            self.grams(60_000),
            self.random.choice((None, self.random.randint(1, 8))),
            pull=self.lot("S", ["pallet"]) if self.chance(0.2) else "",
            product=self.random.choice(("", "Jar")),
            drained_g=self.random.choice((0, self.grams(8_000))),
            into=self.vessel(),
            trimmings_g=self.random.choice((0, self.grams(5_000))),
            trimmings_into=self.random.choice(("", self.vessel())),
            rejects_g=self.random.choice((0, self.grams(900))),
            despite_hold=DESPITE,
        )
        self.say(facts, self.a_run())

    def do_chunk(self) -> None:
        """Pieces of comb go into jars of liquid honey."""
        source = self.random.choice((self.vessel(full=True), self.lot("DP", ["drum"])))
        jars = self.random.randint(1, 60)
        liquid_g = self.random.choice((None, self.grams(20_000)))
        pieces = self.random.randint(1, 30)
        self.say(Chunk("Jar", self.lot("K"), pieces, source, jars, liquid_g, DESPITE))
