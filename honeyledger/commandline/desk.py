"""What a command works at: the house it was told of, who says it, and how the answer goes out.

The house is opened when it is first needed, so that help costs nothing.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any, Protocol, TypeVar

import click

from honeyledger.commandline import output
from honeyledger.domain.moments import Moment, house_day, parse_day, parse_moment
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import (
    MassUnit,
    format_weight,
    parse_count,
    parse_mass_g,
    parse_moisture,
)
from honeyledger.ledger.booking import NO_RUN, rules_of
from honeyledger.ledger.lookup import find_record, read_code
from honeyledger.services.backups import Backup
from honeyledger.services.house import House, Recorded, Said
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View
from honeyledger.settings import Settings

Answer = TypeVar("Answer")
MINUTE_MS = 60_000
PASSWORD = re.compile(r"(?<=:)[^:/@]+(?=@)|(?<=[?&]password=)[^&]+")
"""Where an address has one: RFC 3986, section 3.2.1, or as one of libpq's parameters."""


class OpenHouse(Protocol):
    """Opens the house at a place, or makes one there."""

    def __call__(self, where: str, *, create: bool = False) -> House:
        """The house; it is closed by whoever opened it."""


@dataclass(frozen=True, slots=True)
class Wiring:
    """What the program's root lends the command line.

    Args:
        settings: reads this computer's settings.
        house_named: the house meant by what was given on the line, by environment or setting.
        open_house: opens or makes it.
        sample_house: the file in which the sample season is kept.
        clock_from: a clock that goes on from a moment, in milliseconds UTC, as time passes.
        station_name: the name under which this computer's entries are kept.
        local_zone: the name of this computer's time zone.
        back_up: writes a copy of a house into a file.
        keep_up: does the owner's work on a house: what, where, by whom, at which station.
        open_window: hands over to the window on the house at a place; answers its exit code.
        open_first: the same where there is no house at that place yet.
    """

    settings: Callable[[], Settings]
    house_named: Callable[[str, Settings], str]
    open_house: OpenHouse
    sample_house: Callable[[], str]
    clock_from: Callable[[int], Callable[[], int]]
    station_name: Callable[[Settings], str]
    local_zone: Callable[[], str]
    back_up: Callable[[str, str], Backup]
    keep_up: Callable[[str, str, str, str], object]
    open_window: Callable[[House, Settings, str], int]
    open_first: Callable[[str, Settings], int]


class Desk:
    """One command at work: the options given, the house, and the way out."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self.given: dict[str, str] = {}
        self.as_json = False
        self._opened: list[House] = []

    # The house.

    @cached_property
    def settings(self) -> Settings:
        """This computer's settings."""
        return self.wiring.settings()

    @property
    def where(self) -> str:
        """The file or address of the house."""
        return self.wiring.house_named(self.given.get("house", ""), self.settings)

    @property
    def house_name(self) -> str:
        """Where the house is, as it is told: a server's password is nobody's to read."""
        return PASSWORD.sub("***", self.where) if "://" in self.where else self.where

    @cached_property
    def house(self) -> House:
        """The house, opened."""
        return self.open(self.where)

    def open(self, where: str, *, create: bool = False) -> House:
        """A house that is closed when the command ends."""
        house = self.wiring.open_house(where, create=create)
        self._opened.append(house)
        return house

    def take(self, house: House) -> None:
        """Work on a house that somebody else opened and will close."""
        self.__dict__["house"] = house

    def make_house(self) -> House:
        """A new, empty house at the place named; the commands after it use it."""
        self.take(self.open(self.where, create=True))
        return self.house

    def warn(self) -> None:
        """Say on standard error what the user should know about where the house stands."""
        for warning in self.house.store.warnings():
            click.echo(f"Note: {warning}", err=True)

    def close(self) -> None:
        """Let go of what was opened."""
        while self._opened:
            self._opened.pop().store.close()

    def ask(self, question: Callable[[View], Answer]) -> Answer:
        """Ask the house a question."""
        return self.house.ask(question)

    # What was typed, read strictly.

    @cached_property
    def zone(self) -> str:
        """The house's time zone."""
        return self.ask(rules_of).zone

    @cached_property
    def unit(self) -> MassUnit:
        """The unit weights are typed and shown in: the one given, else the house's own."""
        if given := self.given.get("unit"):
            return "lb" if given == "lb" else "kg"
        return self.ask(mass_unit)

    def mass(self, text: str | None, field: str) -> int | None:
        """Grams of a weight as typed; None where none was."""
        return None if text is None else parse_mass_g(text, self.unit, field=field)

    def the_mass(self, text: str, field: str) -> int:
        """Grams of a weight that has to be there."""
        return parse_mass_g(text, self.unit, field=field)

    def moisture(self, text: str | None) -> int | None:
        """Hundredths of a percent of a moisture as typed."""
        return None if text is None else parse_moisture(text)

    def count(self, text: str | None, what: str, field: str = "count") -> int | None:
        """A whole number as typed."""
        return None if text is None else parse_count(text, what, field=field)

    def day(self, text: str | None, field: str) -> str:
        """A day as the ledger keeps it; "" where none was typed."""
        return "" if text is None else self.date(text, field).isoformat()

    def date(self, text: str, field: str) -> date:
        """A day as typed, by the house's calendar."""
        return parse_day(text, house_day(self.house.clock(), self.zone), field=field)

    def moment_ms(self, text: str | None) -> int:
        """A local time as typed, milliseconds UTC; now where none was typed."""
        now_ms = self.house.clock()
        if text is None:
            return now_ms
        zone = self.ask(lambda view: rules_of(view).zone)
        return parse_moment(text, zone, now_ms).at_ms

    def shown(self, grams: int) -> str:
        """Grams in the unit weights are shown in."""
        return format_weight(grams, self.unit)

    # Who says it, when, where.

    def said(self) -> Said:
        """What goes with the facts of a verb."""
        return self.house.ask(self._said)

    def _said(self, view: View) -> Said:
        unsure = parse_count(self.given.get("unsure", "0"), "a number of minutes", field="unsure")
        return Said(
            operator=self._operator(view),
            station=self.given.get("station") or self.wiring.station_name(self.settings),
            command=self.given.get("command", ""),
            happened=self._happened(view),
            run=self._run(view, self.given.get("run", "")),
            unsure_ms=unsure * MINUTE_MS,
        )

    def check_time(self) -> None:
        """A time given to a command that needs none is a time all the same."""
        if "at" in self.given:
            self.ask(self._happened)

    def _run(self, view: View, text: str) -> str:
        """The code of the run named; the word none stays what it is."""
        if text.strip().lower() == NO_RUN:
            return NO_RUN
        return str(read_code(view, text, "run")) if text else ""

    def _happened(self, view: View) -> Moment | None:
        at = self.given.get("at")
        if at is None:
            return None
        return parse_moment(at, rules_of(view).zone, self.house.clock())

    def _operator(self, view: View) -> str:
        """The code of who works: a name given must be known, one remembered may not be here."""
        if given := self.given.get("operator"):
            return find_record(view, "operator", given)[0].partition("/")[2]
        if not self.settings.operator:
            return ""
        try:
            return find_record(view, "operator", self.settings.operator)[0].partition("/")[2]
        except Refusal:
            return ""

    # Recording and answering.

    def record(self, *facts: Any) -> Recorded:
        """Record facts as one command and say what was written."""
        recorded = self.house.record_all(facts, self.said())
        self.tell(recorded)
        return recorded

    def tell(self, recorded: Recorded) -> None:
        """Say what was written."""
        self.answer(
            output.recorded_json(recorded, self.digest_of(recorded)),
            lambda: output.show_recorded(recorded, self.shown),
        )

    def digest_of(self, recorded: Recorded) -> str:
        """The digest of the last entry written, looked up where it was written before."""
        if recorded.seals:
            return recorded.seals[-1].digest
        last = recorded.entries[-1].id
        return self.ask(lambda view: view.entry_heads([last]))[0].digest

    def answer(self, value: object, show: Callable[[], None]) -> None:
        """Give the answer: as JSON where that was asked for, else as people read it."""
        if self.as_json:
            output.write_json(value)
        else:
            show()

    def answer_rows(
        self,
        value: object,
        columns: Sequence[output.Column],
        rows: Sequence[Sequence[str]],
        none: str,
    ) -> None:
        """Give a table, or a sentence where there are no rows."""
        self.answer(value, lambda: output.table(columns, rows) if rows else output.say(none))
