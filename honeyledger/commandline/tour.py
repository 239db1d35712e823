"""The main job, told and done in the terminal: from supers on the dock to a jar traced back.

Every command is run as a person would type it, on a copy of the sample season, and says what it
says to anyone.
"""

import shlex
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.window import sample_house
from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.lookup import find_vessel
from honeyledger.ledger.mixing import fed_by, name_of
from honeyledger.services.dock import Choice, choices
from honeyledger.services.house import House, given_codes
from honeyledger.services.store import View

HOUSE = "tour.honeyledger"
SUPERS = 36
JARS = 400
CAPPINGS_KG = "24,5"
LOST_G = 1_800  # what clings and spills between two weighings, for the tour


@click.command
@click.pass_context
def tour(ctx: click.Context) -> int:
    """Walk through the main job on a copy of the sample season.

    \b
    Example: honeyledger tour
    """
    desk = ctx.find_object(Desk)
    assert desk is not None
    folder = Path(tempfile.mkdtemp(prefix="honeyledger-tour-"))
    where = folder / HOUSE
    season = sample_house(desk)
    season.store.close()
    desk.wiring.back_up(desk.wiring.sample_house(), str(where))
    copy = desk.open(str(where))
    return _Tour(ctx, desk, House(copy.store, season.clock, copy.new_id), folder).walk()


class _Tour:
    """One walk: what it has in hand, and how it runs a command."""

    def __init__(self, ctx: click.Context, desk: Desk, house: House, folder: Path) -> None:
        self._commands = ctx.find_root().command
        self._desk = desk
        self._house = house
        self._folder = folder
        self._where = folder / HOUSE
        self._who = self._choices("operator")[0].name

    def _choices(self, kind: str) -> Sequence[Choice]:
        return self._house.ask(lambda view: choices(view, kind))

    def walk(self) -> int:
        """The whole way; the exit code of the audit at its end."""
        output.say("The main job of a honey house, on a copy of the sample season.")
        output.say("The house is invented, and so are its people and yards.")
        output.say(f"{self._who} is signed in. HONEYLEDGER_HOUSE={self._where}")
        line, tank = self._line()
        yards = self._choices("yard")
        drums = self._extract(yards[0].name, yards[1].name, line, tank)
        jars = self._bottle(drums[0])
        self._send(drums[1], jars)
        return self._look_back(jars, yards[0].name)

    def _extract(self, yard: str, other: str, line: str, tank: str) -> list[str]:
        """From the dock to drums: the drums' codes."""
        self._tell(f"Supers come in from two yards, {yard} and {other}, on one pallet.")
        gross = ("--gross", "1023,5", "--moisture", "17,2")
        self._do("receive", yard, str(SUPERS), "--and", other, "12", *gross)
        pallet = self._given("G")
        self._tell("A run is opened on the line, and the pallet goes in.")
        self._do("run", "open", line)
        run = self._given("R")
        self._do("load", pallet, line, "--run", run)
        self._tell("Drums are filled and weighed. The scale is right: typed with comma or point.")
        drums = []
        for net in ("293,4", "292.8"):
            self._do("fill", tank, "--net", net, "--run", run)
            drums.append(self._given("D"))
        self._tell("A sample pot of the second is read, and a laboratory reports what it found.")
        self._do("measure", drums[1], "--shown", "1.4899", "--read-at", "23")
        bench = ("--laboratory", "Prairie Bench", "--report", "26-201")
        self._do("measure", drums[1], "hmf=<5", "diastase=18,2", "yeast=40", *bench)
        self._do("limits", "eu", "--lot", drums[1], "--kind", "blossom")
        self._tell("The cappings are weighed, the heel is read, and the run has to add up.")
        self._do("cappings", line, CAPPINGS_KG, "--run", run)
        left = max(0, self._grams_in(tank) - LOST_G)
        self._do("run", "close", run, "--heel", tank, f"{left / 1000:.1f}")
        return drums

    def _bottle(self, drum: str) -> str:
        """A bottling from the drum: the jar lot's code."""
        product = min(self._choices("product"), key=lambda one: abs(self._net(one) - 500))
        self._tell(f"Jars of {product.name} are filled from the first drum.")
        self._do("change-over", "--product", product.name, "--feed", drum)
        lot = self._given("J")
        self._do("bottle", lot, str(JARS), "--rejects", "2")
        return lot

    def _send(self, drum: str, jars: str) -> None:
        customer = self._choices("customer")[0].name
        self._tell("Labels are printed, and a drum and some jars go out.")
        labels = str(self._folder / "labels.pdf")
        self._do("labels", jars, "--from", "1", "--to", "48", "-o", labels)
        self._do("dispatch", customer, drum, f"{jars}=120")

    def _look_back(self, jars: str, yard: str) -> int:
        """Traces back and forward, and the audit's exit code."""
        lot = parse_code(jars, self._house.ask(rules_of).prefix)
        assert isinstance(lot, Code)
        jar = str(make_jar_code(lot, 82))
        self._tell("A customer asks about one jar. Where is it from?")
        self._do("trace", jar)
        self._tell(f"And where did today's honey of {yard} go?")
        self._do("trace", yard, "--from", "today")
        self._tell("Every entry is sealed with the one before. Is the ledger whole?")
        code = self._do("audit")
        output.say()
        output.say(f"The tour's house and its labels are in {self._folder}.")
        output.say("Make your own: honeyledger new --name NAME, then honeyledger --help.")
        return code

    # What is in hand.

    def _line(self) -> tuple[str, str]:
        """A line and the last tank it feeds, by name."""

        def question(view: View) -> tuple[str, str]:
            marks = view.marked("record", "vessel/")
            feeds = {mark.subject: fed_by(view, mark.subject) for mark in marks}
            lines = {line for above in feeds.values() for line in above}
            for tank, above in feeds.items():
                if above and tank not in lines:
                    return name_of(view, above[-1]), name_of(view, tank)
            raise BrokenRule("the sample house has no tank fed by a line")

        return self._house.ask(question)

    def _net(self, product: Choice) -> int:
        mark = self._house.ask(lambda view: view.mark(f"product/{product.code}", "record"))
        net = mark.value.get("net_g", 0) if mark and isinstance(mark.value, Mapping) else 0
        return net if isinstance(net, int) else 0

    def _grams_in(self, tank: str) -> int:
        """What the books see in a tank and in what feeds it, grams."""

        def question(view: View) -> int:
            place = find_vessel(view, tank)
            places = (place, *fed_by(view, place))
            return sum(row.grams for one in places for row in view.standing(one))

        return self._house.ask(question)

    def _given(self, letter: str) -> str:
        """The code of this letter that the last command gave."""
        entry = self._house.ask(lambda view: view.entries(last=1))[0]
        return next(code for code in given_codes(entry) if code.split("-")[-3][0] == letter)

    # How it is told and done.

    def _tell(self, text: str) -> None:
        output.say()
        output.say(text)

    def _do(self, *words: str) -> int:
        """Type a command and show what it says."""
        output.say()
        output.say(f"$ honeyledger {shlex.join(words)}")
        desk = Desk(self._desk.wiring)
        desk.take(self._house)
        desk.given.update({"operator": self._who, "station": "tour"})
        code: int = self._commands.main(list(words), standalone_mode=False, obj=desk)
        if code:
            raise click.exceptions.Exit(code)
        return code
