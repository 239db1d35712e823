"""Random deeds of trade: samples judged, the buyer's scale, title, empties, honey from outside,
where things stand, and walks in which something is missing, misplaced or found."""

from typing import Any

from honeyledger.ledger.places import key_of
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.bought_in import Purchase, SendBack
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.opening import FoundDrum, OpeningStock
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.recalls import (
    SORTS,
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, Empties, TransferTitle
from tests.support.random_choice import CONTAINERS, NO_LOT, YARDS, RandomBooks

PARTIES = ("Shop", "Ridge", "house")
ROWS = ("", "A", "B")
NO_NOTE, NO_RUN, NO_CASE = "N26-9999-K", "R26-9999-K", "Q26-9999-K"
ROOM = "Hot room"


class TradeDeeds(RandomBooks):
    """What is sent in bulk is remembered by its notes and samples."""

    cases: list[str]
    notes: list[str]
    samples: list[str]

    def do_offer(self) -> None:
        """A sample is drawn for a customer, or judged; title goes over."""
        self.samples = getattr(self, "samples", [])
        drum = self.lot("DP", ["drum"])
        verdict = self.random.choice(("approved", "refused", "approved", ""))
        facts: tuple[Any, ...] = (
            Sample((drum, self.lot("D")), self.grams(400), customer="Shop"),
            Approve(self.one(self.samples, NO_LOT), verdict, "too dark", customer="Shop"),
            TransferTitle((drum,), self.random.choice(PARTIES), "INV 7", "looked at"),
        )
        self.samples += [code for code in self.say(self.random.choice(facts)) if code[0] == "X"]

    def do_recall(self) -> None:
        """A case is opened, a customer told and heard, and it ends; in any order."""
        self.cases = getattr(self, "cases", [])
        case = self.one(self.cases, NO_CASE)
        facts: tuple[Any, ...] = (
            OpenRecall("smoke", (self.lot("DJ"),), sort=self.random.choice(SORTS)),
            OpenRecall("smoke", yard=self.random.choice(YARDS)),
            TellConsignees(case, ("Shop",), "phone"),
            AnswerRecall(case, "Shop", here_g=self.grams(1_000)),
            CloseRecall(case, "looked at", despite="a drill"),
            CloseRecall(case, "looked at", despite="a drill"),
        )
        self.cases += [code for code in self.say(self.random.choice(facts)) if code[0] == "Q"]

    def do_truck(self) -> None:
        """Several drums leave on one note, with whose they are and in whose name."""
        self.notes = getattr(self, "notes", [])
        codes = sorted({self.lot("DP", ["drum"]) for _ in range(3)})
        lines = tuple(DispatchLine(code) for code in codes)
        owner = self.random.choice(("", "", "Shop"))
        facts = Dispatch("Shop", lines, freight_container="CSQU3054384", owner=owner)
        self.notes += [code for code in self.say(facts) if code[0] == "N"]

    def do_after_the_truck(self) -> None:
        """The buyer weighs it, sends it back whole or in part, and returns the empties."""
        note = self.one(getattr(self, "notes", []), NO_NOTE)
        gone = [code for code, _ in self.gone_to("customer")]
        lines = tuple(DispatchLine(code) for code in sorted({*gone[:1], *gone[-1:]}))
        weight = Weight(net_g=self.grams(300_000))
        facts = (
            BuyersWeight(self.one([note, *gone], note), weight),
            TakeBack("", note, "too wet"),
            TakeBack("Shop", "", "too wet", lines=lines),
            Empties("Shop", (self.random.choice(CONTAINERS),)),
        )
        self.say(self.random.choice(facts))

    def do_from_outside(self) -> None:
        """Bought in with or without its papers, sent back; a drum of last season."""
        container = self.random.choice(("", "", *CONTAINERS))
        weight = Weight(net_g=self.grams(100_000))
        countries = (Part("AR", 600), Part("UY", 400)) if self.chance(0.5) else ()
        yards = tuple(
            Part(yard) for yard in self.random.sample(YARDS, self.random.choice((0, 1, 2)))
        )
        facts = (
            Purchase("Vale", weight, "9", countries=countries, container=container),
            SendBack((self.lot("P", ["drum"]),), "too dark"),
            OpeningStock(weight, self.random.choice((2025, 2025, 2026)), yards, container),
        )
        self.say(self.random.choice(facts))

    def do_find(self) -> None:
        """A drum is found, and later known to be of a run or a yard."""
        container = self.random.choice(("", "", *CONTAINERS))
        found = [one.code for one in self.lots("D") if not one.attributes.get("run")]
        run = self.one(self.runs, NO_RUN)
        facts = (
            FoundDrum(Weight(net_g=self.grams(100_000)), container, room=ROOM, row="A"),
            Amend(self.one(found, NO_LOT), "seen by the crew", run=run),
            Amend(reason="typed without", entry=self.one(self.runless(), 1), run=run),
        )
        self.say(self.random.choice(facts))

    def do_walk(self) -> None:
        """Things are carried to a row, or a row is walked."""
        rows = self.ask(lambda view: view.on_hand(["pallet", "drum", "barrel", "jars"]))
        codes = [
            key_of(row.place) if row.place.startswith("pallet") else row.lot.code for row in rows
        ]
        some = tuple(self.random.sample(codes, min(len(codes), self.random.randint(1, 4))))
        some += (self.random.choice(CONTAINERS),) if self.chance(0.3) else ()
        gone = [code for code, _ in self.gone_to("customer")]
        some += (self.one(gone, NO_LOT),) if gone and self.chance(0.2) else ()
        row = self.random.choice(ROWS)
        found = (FoundDrum(Weight(net_g=self.grams(80_000))),) if self.chance(0.2) else ()
        facts = (Move(some, ROOM, row), Stocktake(ROOM, row, some, found))
        self.say(self.random.choice(facts))
