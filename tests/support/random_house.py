"""Random deeds in a small house: each picks from what there is; the ledger may refuse any."""

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.claims import as_kept, claims_of, frozen
from honeyledger.ledger.holds import held_among, open_holds
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.corrections import Amend, Narrow, Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Count, Join, Line, Receive, Split
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, Wash, WetOut
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from honeyledger.services.store import View
from tests.support.houses import MINUTE_MS
from tests.support.random_blending import BlendingDeeds
from tests.support.random_choice import CONTAINERS, DESPITE, NO_LOT, NO_TAG, YARDS
from tests.support.random_jars import JarDeeds
from tests.support.random_readings import Readings
from tests.support.random_trade import TradeDeeds
from tests.support.random_yards import YardDeeds

REMAINS = ("", "rinse", "discarded", "never")


class RandomHouse(BlendingDeeds, JarDeeds, Readings, TradeDeeds, YardDeeds):
    """Every verb, each in many ways."""

    def deed(self, name: str) -> None:
        """Do one thing by its name."""
        getattr(self, f"do_{name}")()

    def do_receive(self) -> None:
        """Supers of one or two yards arrive."""
        yards = self.random.sample(YARDS, self.random.choice((1, 1, 2)))
        lines = tuple(Line(y, self.random.randint(1, 20), owner=self.an_owner()) for y in yards)
        gross = self.random.choice((None, sum(line.count for line in lines) * 20_000 + 30_000))
        self.say(Receive(lines, gross_g=gross))

    def do_shift(self) -> None:
        """A pallet is split, joined or counted again, one yard's supers or all."""
        tag, count = self.tag(), self.random.randint(1, 8)
        pull = self.lot("S", ["pallet"]) if self.chance(0.3) else ""
        facts = (Split(tag, count, pull), Join(tag, self.tag()), Count(tag, count, pull))
        self.say(self.random.choice(facts))

    def do_load(self) -> None:
        """A pallet, or a part, or a part of one yard goes in."""
        if self.tag() == NO_TAG:
            self.do_receive()
        count = self.random.choice((None, None, self.random.randint(1, 8)))
        pull = self.lot("S", ["pallet"]) if self.chance(0.2) else ""
        vessel = self.random.choice(("Line", "Line", self.vessel()))
        facts = Load(self.tag(), vessel, count, pull, DESPITE, apart=self.chance(0.6))
        self.say(facts, self.a_run())

    do_load_more = do_load

    def do_fill(self) -> None:
        """A one-way drum is filled, by weight or with its weight to follow."""
        source = self.vessel(full=True)
        pending = self.chance(0.2)
        weight = Weight() if pending else Weight(net_g=self.grams_of(source))
        self.say(Fill(source, weight, pending=pending, despite_hold=DESPITE), self.a_run())

    def do_fill_again(self) -> None:
        """A container of the house is filled: washed or not, on top of what is there, in part."""
        source, container = self.vessel(full=True), self.random.choice(CONTAINERS)
        facts = Fill(
            source,
            Weight(net_g=self.grams_of(source) // 3 + 1),
            container=container,
            bung=self.chance(0.6),
            top_up=self.held_g(container) > 0 and self.chance(0.8),
            washed=self.random.choice((None, True, False, False)),
            despite_hold=DESPITE,
        )
        self.say(facts, self.a_run())

    def do_bung(self) -> None:
        """A waiting drum is closed."""
        self.say(Bung(self.random.choice(CONTAINERS)))

    def do_weigh(self) -> None:
        """A drum is put on the scale again."""
        self.say(Reweigh(self.lot("D", ["drum"]), Weight(net_g=self.grams(120_000))))

    def do_pour(self) -> None:
        """A drum, a barrel or a vessel is poured into a vessel or a drum."""
        source = self.random.choice((self.lot("DPW"), self.lot("D"), self.vessel(full=True)))
        weight = Weight() if (whole := self.chance(0.5)) else Weight(net_g=self.grams(30_000))
        into = self.vessel()
        container = self.random.choice(CONTAINERS) if self.chance(0.15) else ""
        facts = Fill(
            source,
            weight,
            container=container,
            into="" if container else into,
            whole=whole,
            top_up=True,
            washed=False,
            despite_hold=DESPITE,
        )
        self.say(facts, self.a_run())

    def do_scrape_back(self) -> None:
        """Jars go back into a vessel."""
        self.say(
            Fill(self.lot("J"), into=self.vessel(), jars=self.grams(60), despite_hold=DESPITE)
        )

    def do_take_off(self) -> None:
        """Foam, a sample, something spoilt, a reading, the wet supers."""
        facts = (
            Skim(self.vessel(full=True), self.grams(5_000)),
            Sample((self.lot("TD"), self.vessel(full=True)), self.grams(500)),
            Sample((self.lot("DJKWPS"),), self.grams(500)),
            Discard(self.lot("DTPW"), "spoilt", net_g=self.grams(5_000)),
            Discard(self.lot("JK"), "broken", jars=self.grams(5)),
            self.a_reading(),
            WetOut(self.random.randint(1, 40), pull=self.lot("S")),
        )
        self.say(self.random.choice(facts), self.a_run())

    def do_buy(self) -> None:
        """A drum of bought-in honey comes, on its own or in a container of the house."""
        container = self.random.choice(("", "", *CONTAINERS))
        weight = Weight(net_g=self.grams(100_000))
        papers = {"country": "AR", "certificate": "C 31"} if self.chance(0.6) else {}
        self.say(Purchase("Ridge", weight, supplier_lot="7", container=container, **papers))

    def do_cappings(self) -> None:
        """A barrel of cappings."""
        self.say(Cappings(self.random.choice(("Line", "Line", "Tank")), self.grams(40_000)))

    def do_wash(self) -> None:
        """Some vessels are washed."""
        vessels = tuple(sorted({self.vessel() for _ in range(self.random.choice((1, 1, 2)))}))
        kept = (self.vessel(), self.grams(5_000)) if self.chance(0.2) else ("", None)
        self.say(Wash(vessels, self.random.choice(REMAINS), *kept))

    def do_run(self) -> None:
        """A run is opened, or closed with a heel."""
        if self.runs and self.chance(0.7):
            heel = Heel(self.vessel(), self.grams(50_000))
            self.say(CloseRun(self.runs[-1], (heel,)))
        else:
            self.runs += [code for code in self.say(OpenRun("Line")) if code[0] == "R"]

    def do_bottle(self) -> None:
        """A bottling begins, changes over or ends."""
        feed = self.random.choice((self.vessel(full=True), self.lot("DP", ["drum"])))
        if not self.bottlings:
            given = self.say(ChangeOver(product="Jar", feed=feed, despite_hold=DESPITE))
            self.bottlings += [(code, 0) for code in given if code[0] == "J"]
            return
        code, counter = self.bottlings.pop()
        jars = counter + self.random.randint(0, 80)
        before = len(self.said)
        if self.chance(0.5):
            self.say(ChangeOver(code, "", feed, jars, despite_hold=DESPITE))
        else:
            self.say(Bottle(code, jars, rejects=self.random.choice((0, 3)), despite_hold=DESPITE))
            self.ask(lambda view: len(self.said) > before and _is_sealed_as_told(view, code))
        if self.ask(lambda view: view.lot_by_code(code)) is None:
            self.bottlings.append((code, jars if len(self.said) > before else counter))

    do_bottle_on = do_bottle

    def do_send(self) -> None:
        """Something is sent, after a hold on it is let go of, or comes back."""
        code = self.lot("DJPK", ["drum", "jars"])
        jars = self.random.randint(1, 20) if code[0] in "JK" else None
        code, jars = self.or_a_case(code, jars)
        if self.chance(0.3):
            customer = "Shop" if self.chance(0.8) else "gate"
            sent, pieces = self.one(self.gone_to("customer"), (code, 0))
            self.say(TakeBack(customer, sent, "dented", self.grams(pieces) if pieces else None))
            return
        if self.chance(0.7):
            for hold in self.ask(open_holds):
                self.say(Release(hold.subject.partition("/")[2], "clean", "C 31", "7", "AR"))
        self.say(Dispatch("Shop", (DispatchLine(code, jars),)))

    def do_hold(self) -> None:
        """A hold is set, one lot is cleared of it, or it is released."""
        target = self.random.choice((self.lot("SPDJTKW"), self.lot("S"), self.tag(), "North"))
        days = {"first_day": "2026-07-01"} if target == "North" else {}
        held = self.ask(self._held)
        code, number = self.one(held, (NO_LOT, "1"))
        facts = (
            PutOnHold(target, "treated", **days),
            Clear(code, number, "clean", "tested"),
            Release(number, "clean", certificate="C 31"),
        )
        self.say(self.random.choice(facts))

    def _held(self, view: View) -> list[tuple[str, str]]:
        lots = {row.lot.id: row.lot.code for row in view.on_hand() if row.lot.kind in "TDJ"}
        return [
            (lots[one.lot], one.hold.subject.partition("/")[2])
            for one in held_among(view, list(lots))
        ]

    def do_amend(self) -> None:
        """The books were wrong about a source, a load, a drum or a bottling."""
        loads = [entry.id for entry in self.ask(lambda view: view.entries(("load",)))]
        unknown = [lot.code for lot in self.lots("S") if lot.attributes.get("source") == "unknown"]
        lot = self.lot("DJ", ["drum", "jars"])
        facts = (
            Amend(self.lot("S"), "misread", yard=self.random.choice(YARDS)),
            Amend(self.lot("P"), "misread", supplier=self.random.choice(("Ridge", "Vale"))),
            Amend(self.one(unknown, NO_LOT), "found", pallet=self.tag()),
            Amend(lot, "misread", source=self.vessel()),
            Amend(lot, "misread", container=self.random.choice(CONTAINERS)),
            Amend(lot, "misread", filled_on="2026-07-24"),
            Amend(reason="wrong tank", load=self.one(loads, 1), vessel=self.vessel()),
        )
        self.say(self.random.choice(facts))

    do_amend_more = do_amend

    def do_narrow(self) -> None:
        """A row of 0 g is taken out of reach, or a place a pull was amended from."""
        lots = self.lots("TDJPSKW")
        lot = self.one(lots, None)
        if lot is None:
            return
        edges = self.ask(lambda view: view.ancestry([lot.id]))
        rows = [edge for edge in edges if not edge.grams] or list(edges)
        edge = self.one(rows, None)
        if edge is not None and self.chance(0.8):
            code = self.ask(lambda view: view.lot(edge.child).code)
            self.say(Narrow(code, "seen", entry=edge.entry, line=edge.line))
            return
        where = self.one(self.place_names(lot.id), "North")
        self.say(Narrow(lot.code, "seen", place=where))

    def do_reverse(self) -> None:
        """One of the last entries was entered wrongly."""
        head = self.ask(lambda view: view.head()).entry
        free = [
            entry
            for entry in range(max(self.set_up + 1, head - 12), head + 1)
            if not self.ask(lambda view, entry=entry: view.built_on(entry))
        ]
        if self.chance(0.2):
            free = list(range(self.set_up + 1, head + 1))
        self.say(Reverse(self.one(free, head + 1), "entered wrongly"))

    def do_chain(self) -> None:
        """A late entry and all that is built on it are reversed, newest first."""
        head = self.ask(lambda view: view.head()).entry
        entry = self.random.randint(max(self.set_up + 1, head - 6), max(self.set_up + 1, head))
        self.built.now_ms += MINUTE_MS
        try:
            self.built.house.reverse_chain(entry, "entered wrongly", Said("O26-0001-X"))
        except Refusal:
            return

    def do_register(self) -> None:
        """A record is changed whole: a yard's name, a tank's line, a drum's tare."""
        names = {mark.value["name"]: mark for mark in self.ask(lambda v: v.marked("record"))}
        name = self.random.choice(("Tank", "Drum 1", "South", "Shop"))
        mark = names.get(name)
        if mark is None:
            return
        what, _, key = mark.subject.partition("/")
        changed = {
            "vessel": {"fed_by": self.random.choice(("", "Line"))},
            "drum": {"tare_g": self.random.randint(15_000, 20_000)},
            "yard": {"colonies": self.random.randint(10, 40)},
        }.get(what, {"address": "1 Mill Lane"})
        record = {part: value for part, value in {**mark.value, **changed}.items() if value != ""}
        self.say(Register(what, record, key=key))


DEEDS = sorted(name.removeprefix("do_") for name in dir(RandomHouse) if name.startswith("do_"))


def _is_sealed_as_told(view: View, code: str) -> bool:
    """What was sealed of the claims of jars just bottled is what the books say of them."""
    lot = view.lot_by_code(code)
    if lot is not None:
        now, sealed = claims_of(view, {lot.id: lot.made_g}), frozen(view, code)
        assert now is not None
        assert sealed is not None
        assert as_kept(sealed) == as_kept(now)
    return lot is not None
