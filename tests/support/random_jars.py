"""Random deeds with jars after bottling: cases, labels, complaints."""

from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.ledger.verbs.jars import Complain, LabelJars
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from tests.support.random_choice import RandomBooks


class JarDeeds(RandomBooks):
    """What is packed is remembered, so that cases go onto pallets, out and back."""

    packs: list[str]

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
        self.packs += [code for code in self.say(Pack(lines, 1)) if code[0] in "CL"]

    def or_a_case(self, code: str, jars: int | None) -> tuple[str, int | None]:
        """What was chosen to be sent, or a case or pallet in its place."""
        packs = getattr(self, "packs", [])
        return (self.one(packs, code), None) if packs and self.chance(0.5) else (code, jars)

    def do_label(self) -> None:
        """Labels are put on, packaging named or not; a complaint."""
        packaging = (self.lot("A"),) if self.chance(0.5) else ()
        facts = (
            LabelJars(self.lot("J"), self.random.randint(1, 60), packaging=packaging),
            Complain(self.lot("J"), "not full"),
            JudgeClaims(self.lot("J"), "a record was wrong"),
        )
        self.say(self.random.choice(facts))
