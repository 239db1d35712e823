"""Random deeds in a small house: each picks from what there is; the ledger may refuse any."""

from collections.abc import Sequence
from random import Random
from typing import Any

from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Narrow, Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Count, Join, Line, Receive, Split
from honeyledger.ledger.verbs.drums import Bung, Fill, Purchase, Reweigh, Skim
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, Wash, WetOut
from honeyledger.ledger.verbs.quality import Clear, Measure, PutOnHold, Release, Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import Said
from tests.support.houses import MINUTE_MS, BuiltHouse

DESPITE = "looked at by a named person"


class RandomHouse:
    """A house with two lines, a tank, drums and a shop, worked at random.

    `seed` chooses all that a deed leaves open, so that the same deeds in a second house say the
    same facts.
    """

    def __init__(self, seed: int, margin_min: int = 60) -> None:
        self.random = Random(seed)
        self.built = BuiltHouse(margin_min)
        self.said: list[tuple[Any, int, Said]] = []
        for name in ("North", "South", "East"):
            self.built.yard(name, colonies=30)
        line = self.built.vessel("Line", sort="line")
        self.built.vessel("Fed tank", fed_by=line)
        self.built.vessel("Tank")
        for name in ("Drum 1", "Drum 2"):
            self.built.container(name, tare_g=18_000)
        for kind, name in (("supplier", "Ridge"), ("customer", "Shop")):
            self.built.do(Register(kind, {"name": name}))
        self.built.do(Register("product", {"name": "Jar", "net_g": 500}))
        self.runs: list[str] = []
        self.bottlings: list[str] = []

    # What there is to choose from.

    def lots(self, kinds: str = "SPTDJWX") -> list[Lot]:
        """Lots with grams in the house, of these kinds."""
        rows = self.built.house.ask(lambda view: view.on_hand())
        return [row.lot for row in rows if row.lot.kind in kinds and row.grams]

    def one(self, found: Sequence[Any]) -> Any:
        """One of them; a code that does not exist where there is none."""
        return self.random.choice(found) if found else "D26-0001-C"

    def lot(self, kinds: str = "SPTDJWX") -> str:
        """The code of a lot that is there."""
        found = self.lots(kinds)
        return self.random.choice(found).code if found else "D26-9999-0"

    def tag(self) -> str:
        """A pallet that stands here."""
        rows = self.built.house.ask(lambda view: view.on_hand(["pallet"]))
        return self.one(sorted({row.place.partition("/")[2] for row in rows}))

    def vessel(self) -> str:
        """A vessel by its name."""
        return self.random.choice(("Line", "Fed tank", "Tank"))

    def grams(self, most: int = 400_000) -> int:
        """Some grams."""
        return self.random.randint(1, most)

    # Recording.

    def say(self, facts: Any, run: str = "") -> list[str]:
        """Say facts now, or hours late, or with an unsure time; a refusal changes nothing."""
        self.built.now_ms += self.random.randint(1, 50) * MINUTE_MS
        late_min = self.random.choice((0, 0, 0, 0, 30, 300))
        happened = moment_at(self.built.now_ms - late_min * MINUTE_MS, "UTC")
        unsure_ms = self.random.choice((0, 0, 0, 0, 90)) * MINUTE_MS
        command = f"random-{len(self.said)}"
        said = Said("O26-0001-X", "floor", command, happened, run, unsure_ms)
        before = self.built.house.ask(lambda view: view.head())
        try:
            done = self.built.house.record(facts, said)
        except Refusal:
            assert self.built.house.ask(lambda view: view.head()) == before
            return []
        self.said.append((facts, self.built.now_ms, said))
        return list(done.given)

    def deed(self, name: str) -> None:
        """Do one thing by its name."""
        getattr(self, f"do_{name}")()

    def do_receive(self) -> None:
        """Supers of one or two yards arrive."""
        yards = self.random.sample(("North", "South", "East"), self.random.choice((1, 1, 2)))
        lines = tuple(Line(yard, self.random.randint(1, 40)) for yard in yards)
        gross = self.random.choice((None, sum(line.count for line in lines) * 20_000 + 30_000))
        self.say(Receive(lines, gross_g=gross))

    def do_shift(self) -> None:
        """A pallet is split, joined or counted again."""
        count = self.random.randint(1, 30)
        facts = (Split(self.tag(), count), Join(self.tag(), self.tag()), Count(self.tag(), count))
        self.say(self.random.choice(facts))

    def do_load(self) -> None:
        """A pallet, or a part, goes in."""
        count = self.random.choice((None, None, self.random.randint(1, 20)))
        facts = Load(
            self.tag(),
            self.vessel(),
            count,
            despite_hold=DESPITE,
            apart=self.random.random() < 0.5,
        )
        self.say(facts, self.random.choice(["", *self.runs[-1:]]))

    def do_fill(self) -> None:
        """A drum is filled, in one of many ways."""
        weight = Weight(net_g=self.grams())
        container = self.random.choice(("", "", "Drum 1", "Drum 2"))
        facts = Fill(
            self.vessel(),
            weight,
            container=container,
            bung=not container or self.random.random() < 0.7,
            top_up=self.random.random() < 0.5,
            washed=self.random.choice((None, True, False)),
            despite_hold=DESPITE,
        )
        self.say(facts, self.random.choice(["", *self.runs[-1:]]))

    def do_pending(self) -> None:
        """A drum whose weight is to follow, and its weight."""
        self.say(Fill(self.vessel(), pending=True, despite_hold=DESPITE))
        self.say(Reweigh(self.lot("D"), Weight(net_g=self.grams())))

    def do_pour(self) -> None:
        """A drum or vessel is poured into a vessel."""
        source = self.random.choice((self.lot("DP"), self.vessel()))
        whole = self.random.random() < 0.5
        weight = Weight() if whole else Weight(net_g=self.grams())
        self.say(Fill(source, weight, into=self.vessel(), whole=whole, despite_hold=DESPITE))

    def do_small(self) -> None:
        """Bung, skim, sample, discard or measure."""
        facts = (
            Bung(self.random.choice(("Drum 1", "Drum 2"))),
            Skim(self.vessel(), self.grams(5_000)),
            Sample((self.lot(),), self.grams(500)),
            Discard(self.lot(), "spoilt", net_g=self.grams(5_000)),
            Measure(self.lot(), moisture=self.random.randint(1500, 2000)),
            WetOut(self.random.randint(1, 40)),
            Purchase("Ridge", Weight(net_g=self.grams())),
        )
        self.say(self.random.choice(facts))

    def do_cappings(self) -> None:
        """A barrel of cappings."""
        self.say(Cappings(self.random.choice(("Line", "Tank")), self.grams(60_000)))

    def do_wash(self) -> None:
        """Some vessels are washed."""
        vessels = tuple({self.vessel() for _ in range(2)})
        remains = self.random.choice(("", "rinse", "discarded", "never"))
        self.say(Wash(tuple(sorted(vessels)), remains))

    def do_run(self) -> None:
        """A run is opened, or closed with a heel."""
        if self.runs and self.random.random() < 0.5:
            heel = Heel(self.vessel(), self.grams(50_000))
            self.say(CloseRun(self.runs[-1], (heel,)))
        else:
            self.runs += [code for code in self.say(OpenRun("Line")) if code[0] == "R"]

    def do_bottle(self) -> None:
        """A bottling begins, changes over or ends."""
        if not self.bottlings:
            given = self.say(ChangeOver(product="Jar", feed=self.vessel(), despite_hold=DESPITE))
            self.bottlings += [code for code in given if code[0] == "J"]
            return
        jars = self.random.randint(0, 400)
        if self.random.random() < 0.5:
            facts = ChangeOver(self.bottlings[-1], "", self.vessel(), jars, despite_hold=DESPITE)
            self.say(facts)
        else:
            code = self.bottlings[-1]
            self.say(Bottle(code, jars, despite_hold=DESPITE))
            if self.built.house.ask(lambda view: view.lot_by_code(code)) is not None:
                self.bottlings.remove(code)

    def do_trade(self) -> None:
        """Something is sent, or comes back."""
        code = self.lot("DJ")
        jars = self.random.randint(1, 50) if code[0] == "J" else None
        if self.random.random() < 0.7:
            self.say(Dispatch("Shop", (DispatchLine(code, jars),)))
        else:
            self.say(TakeBack("Shop", code, "dented", jars))

    def do_hold(self) -> None:
        """A hold is set, cleared or released."""
        target = self.random.choice((self.lot(), self.lot("S"), "North"))
        facts = (
            PutOnHold(target, "treated", first_day="2026-07-01" if target == "North" else ""),
            Clear(self.lot("DJ"), target, "clean"),
            Release(target, "clean"),
        )
        self.say(self.random.choice(facts))

    def do_correct(self) -> None:
        """Something is amended, narrowed or reversed."""
        entry = self.random.randint(1, self.built.house.ask(lambda view: view.head()).entry)
        facts = (
            Amend(self.lot("S"), "misread", yard=self.random.choice(("North", "South", "East"))),
            Amend(self.lot("S"), "found", pallet=self.tag()),
            Amend(self.lot("D"), "misread", source=self.vessel()),
            Amend(reason="wrong tank", load=entry, vessel=self.vessel()),
            Narrow(self.lot(), "seen", entry=entry, line=self.random.randint(1, 4)),
            Reverse(entry, "entered wrongly"),
        )
        self.say(self.random.choice(facts))

    def do_chain(self) -> None:
        """A late entry and all that is built on it are reversed, newest first."""
        head = self.built.house.ask(lambda view: view.head()).entry
        entry = self.random.randint(max(1, head - 6), head)
        self.built.now_ms += MINUTE_MS
        try:
            self.built.house.reverse_chain(entry, "entered wrongly", Said("O26-0001-X"))
        except Refusal:
            return


DEEDS = sorted(name.removeprefix("do_") for name in vars(RandomHouse) if name.startswith("do_"))
