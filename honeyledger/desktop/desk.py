"""What every station works at: the house, the lanes, the broadcast, this computer's settings.

Handed to each station when it is made; nothing of it is global.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.jobs import Jobs, Outcome
from honeyledger.desktop.messages import Message
from honeyledger.desktop.refresh import Refresh
from honeyledger.services.house import House, Recorded, Said
from honeyledger.settings import Settings

EVERYTHING = frozenset({"ledger"})


@dataclass(slots=True)
class Desk:
    """One window's surroundings. `operator` is the code of who works here now."""

    house: House
    jobs: Jobs
    refresh: Refresh
    settings: Settings
    assets: Path
    operator: str = ""
    run: str = ""
    sizes: dict[str, int] = field(default_factory=dict)

    def said(self, *, run: str = "") -> Said:
        """Who says it, at this station, with an id made now, so that a retry writes once."""
        return Said(
            operator=self.operator,
            station=self.settings.station,
            command=self.house.new_id(),
            run=run,
        )

    def record(
        self,
        all_facts: Sequence[Any],
        said: Said,
        then: Callable[[Outcome[Recorded]], None],
        me: object = None,
    ) -> None:
        """Record in the write lane; tell everyone what changed when it is written."""

        def written(outcome: Outcome[Recorded]) -> None:
            if outcome.value is not None:
                self.refresh.broadcast(EVERYTHING, me)
            then(outcome)

        self.jobs.write(lambda: self.house.record_all(all_facts, said), written)


class StationView(Protocol):
    """What the window asks of a station's page."""

    widget: QWidget
    asks: "StationAsks"

    def begin(self) -> None:
        """The station was opened: put the keyboard where work begins."""

    def take_code(self, code: str) -> bool:
        """A code was scanned or typed: whether the station makes use of it."""

    def handle(self, action: str) -> bool:
        """A key of the table ("print", "repeat", "clear"): whether the station acts on it."""


class StationAsks(QObject):
    """What a station asks of the window.

    Signals:
        card: open the card of a lot, by its code.
        trace: trace a code.
        reverse: take back an entry that was just recorded, by its number.
        say: a message for the toast line.
    """

    card = Signal(str)
    trace = Signal(str)
    reverse = Signal(int)
    say = Signal(object)

    def told(self, message: Message) -> None:
        """Say a message."""
        self.say.emit(message)
