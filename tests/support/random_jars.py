"""Random deeds with jars after bottling: cases, labels, complaints."""

from functools import partial

from honeyledger.ledger.units import unit_number
from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.ledger.verbs.jars import Complain, LabelJars
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from tests.support.random_choice import RandomBooks


class JarDeeds(RandomBooks):
    """What is packed is remembered, so that cases go onto pallets, out and back."""

    packs: list[str]
    numbers: set[str]

    def do_pack(self) -> None:
        """Jars into cases, cases onto a pallet, a case opened."""
        self.packs = getattr(self, "packs", [])
        jars = self.lot("JK", ["jars"])
        if self.packs and self.chance(0.3):
            self.say(Unpack(self.one(self.packs, ""), "broken"))
            return
        case = (PackLine(self.one(self.packs, "C26-0001-0")),)
        into = (PackLine(jars, self.random.randint(1, 12)),)
        lines = case if self.packs and self.chance(0.3) else into
        packed = [code for code in self.say(Pack(lines, 1)) if code[0] in "CL"]
        self.packs += packed
        self.numbers = getattr(self, "numbers", set())
        for code in packed:
            number = self.ask(partial(unit_number, code=code))
            assert number, "the house has a company prefix"
            assert number not in self.numbers, "no number is given twice, whatever was reversed"
            self.numbers.add(number)

    def or_a_case(self, code: str, jars: int | None) -> tuple[str, int | None]:
        """What was chosen to be sent, or a case or pallet in its place."""
        packs = getattr(self, "packs", [])
        if not packs or self.chance(0.5):
            return code, jars
        pack = self.one(packs, code)
        # It is scanned by its own code, or by its number as a logistic unit.
        number = self.ask(partial(unit_number, code=pack)) if self.chance(0.3) else ""
        return number or pack, None

    def do_label(self) -> None:
        """Labels are put on, packaging named or not; a complaint."""
        packaging = (self.lot("A"),) if self.chance(0.5) else ()
        facts = (
            LabelJars(self.lot("J"), self.random.randint(1, 60), packaging=packaging),
            Complain(self.lot("J"), "not full"),
            JudgeClaims(self.lot("J"), "a record was wrong"),
        )
        self.say(self.random.choice(facts))
