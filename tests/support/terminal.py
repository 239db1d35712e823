"""A terminal to test with: the real commands on a real house, with a clock that is set."""

import json
from itertools import count
from pathlib import Path
from typing import Any, NamedTuple

from click.testing import CliRunner

from honeyledger import bootstrap
from honeyledger.commandline.desk import Desk, Wiring
from honeyledger.commandline.group import honeyledger
from honeyledger.domain.refusals import Refusal
from honeyledger.persistence.engine import locate
from honeyledger.services.house import House
from honeyledger.settings import Settings
from tests.support.engines import SITE

START_MS = 1_784_882_400_000  # 24 July 2026, 08:40 UTC
MINUTE_MS = 60_000
HOUSE = "house.honeyledger"
NOTHING = (0, "")
"""The head where there is no house yet."""


class Answer(NamedTuple):
    """How a command ended: exit code, standard output, standard error."""

    code: int
    out: str
    err: str


class Terminal:
    """Types commands as a person does, one process's work each, a minute apart."""

    def __init__(
        self, folder: Path, settings: Settings | None = None, where: str | None = None
    ) -> None:
        self.folder = folder
        self.where = where or SITE.address(folder / HOUSE)
        self.settings = settings or Settings()
        self.now_ms = START_MS
        self.windows: list[tuple[House, Settings]] = []
        self.firsts: list[str] = []
        self._numbers = count(1)

    def wiring(self) -> Wiring:
        """What the program's root lends, with this terminal's clock and ids."""

        def open_house(where: str, *, create: bool = False) -> House:
            return bootstrap.open_house(
                where, create=create, clock=lambda: self.now_ms, new_id=self._new_id
            )

        def open_window(house: House, settings: Settings, _where: str) -> int:
            self.windows.append((house, settings))
            return 0

        def open_first(where: str, _settings: Settings) -> int:
            self.firsts.append(where)
            return 0

        return Wiring(
            settings=lambda: self.settings,
            house_named=lambda given, settings: given or settings.house or self.where,
            open_house=open_house,
            sample_house=lambda: str(self.folder / "sample.honeyledger"),
            clock_from=lambda start_ms: lambda: start_ms + self.now_ms - START_MS,
            station_name=lambda settings: settings.station or "desk",
            local_zone=lambda: "UTC",
            back_up=bootstrap.back_up,
            keep_up=bootstrap.keep_up,
            open_window=open_window,
            open_first=open_first,
        )

    def _new_id(self) -> str:
        return f"id-{self.now_ms}-{next(self._numbers)}"

    def type(self, *words: str, answer: str | None = None) -> Answer:
        """Type a command; `answer` is what is typed when it asks."""
        self.now_ms += MINUTE_MS
        result = CliRunner().invoke(
            honeyledger, list(words), obj=Desk(self.wiring()), input=answer
        )
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            raise result.exception
        return Answer(result.exit_code, result.stdout, result.stderr)

    def do(self, *words: str, answer: str | None = None) -> str:
        """Type a command that has to go well: what it says."""
        done = self.type(*words, answer=answer)
        assert done.code == 0, done.err or done.out
        return done.out

    def json(self, *words: str) -> Any:
        """The answer of a command in JSON; only a failed audit may end with another code."""
        done = self.type(*words, "--json")
        assert done.code == 0, done.err or done.out
        return json.loads(done.out)

    def refused(self, *words: str) -> str:
        """The sentence a command is refused with; nothing may have been written."""
        before = self.head()
        done = self.type(*words)
        assert (done.code, done.out) == (2, ""), done
        assert self.head() == before
        return done.err.rstrip("\n")

    def head(self) -> tuple[int, str]:
        """Number and digest of the newest entry, or nothing where there is no house yet."""
        try:
            house = bootstrap.open_house(self.where)
        except Refusal as refusal:
            if refusal.key != "no-house":
                raise
            return NOTHING
        try:
            head = house.ask(lambda view: view.head())
        finally:
            house.store.close()
        return head.entry, head.digest

    @property
    def house_name(self) -> str:
        """What a refusal calls the house's place."""
        return locate(self.where).name

    # What most tests begin with.

    def begin(self) -> "Terminal":
        """A house with two yards, a line with its tank, an operator and a product."""
        self.do("new", "--name", "Test House", "--zone", "UTC")
        self.do("register", "house", "change", "--reach-margin", "0")
        self.do("register", "yard", "add", "Mill Lane", "--colonies", "30")
        self.do("register", "yard", "add", "Long Field")
        self.do("register", "vessel", "add", "Extractor", "--sort", "line")
        self.do("register", "vessel", "add", "Tank 1", "--fed-by", "Extractor")
        self.do("register", "operator", "add", "Ann Reed")
        self.do("register", "product", "add", "Summer 500", "--net", "500")
        self.do("register", "customer", "add", "Corner Shop")
        return self

    def pallet(self, yard: str = "Mill Lane", supers: str = "24", gross: str = "500") -> str:
        """Supers of a yard on a pallet: its tag."""
        return self.given("G", "receive", yard, supers, "--gross", gross)

    def drum(self, *options: str, source: str = "Tank 1", net: str = "150") -> str:
        """A drum filled from a vessel: its code."""
        return self.given("D", "fill", source, "--net", net, *options)

    def given(self, letter: str, *words: str) -> str:
        """The code of this letter that a command gives."""
        codes = self.json(*words)["codes"]
        return next(str(code) for code in codes if code[0] == letter)
