"""An inspector's visit: another window on the house, read only, its customers and spots hidden.

It begins at once and is left by a badge: whoever goes on working signs in again. What was typed
half stays with the window that was there before; nothing of it is shown meanwhile.
"""

import importlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QVBoxLayout

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.refresh import ANEW
from honeyledger.desktop.sign_in import Person, SignIn
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.visit_strip import VisitStrip
from honeyledger.services.house import House
from honeyledger.services.store import Store
from honeyledger.services.visit import VisitedStore
from honeyledger.settings import Settings

if TYPE_CHECKING:  # loaded by name, with the first pack that is printed
    from honeyledger.desktop.sheets import Sheets

SHEETS = "honeyledger.desktop.sheets"


def visited(desk: Desk, drafts: Path) -> Desk:
    """The desk of a visit: nothing is recorded, kept or backed up at it.

    Args:
        drafts: an empty folder, so that no form that was left is shown.
    """
    house = desk.house
    store = cast(Store, VisitedStore(house.store))
    return replace(
        desk,
        house=House(store, house.clock, house.new_id),
        settings=replace(desk.settings, operator=""),
        operator="",
        drafts=Drafts(drafts),
        keep_settings=_keep_nothing,
        keeper=None,
        next_run=(),
        pad=None,
        is_visit=True,
        visits_next=True,
    )


def _keep_nothing(_settings: Settings) -> None:
    """What a visitor changes of the window is gone with the visit."""


class Visit(QObject):
    """Begins a visit, says that it is one, and ends it with a badge."""

    def __init__(
        self, desk: Desk, shell: Shell, signing: SignIn, say: Callable[[Message], None]
    ) -> None:
        super().__init__(shell)
        self._desk, self._signing, self._say = desk, signing, say
        self.strip = VisitStrip()
        self.strip.setVisible(desk.is_visit)
        self.strip.ended.connect(self.ask_badge)
        self.strip.pack.clicked.connect(self.print_pack)
        self._shell = shell
        self._sheets: Sheets | None = None
        column = shell.layout()
        assert isinstance(column, QVBoxLayout)
        column.insertWidget(column.indexOf(shell.pad_strip), self.strip)
        signing.signed.connect(self._signed)

    def start(self) -> None:
        """Ask who works here; during a visit nobody does."""
        if self._desk.is_visit:
            self._signing.ask()
        else:
            self._signing.start()

    def begin(self) -> None:
        """Another window begins, for the visitor; during a visit, say how it is left."""
        if self._desk.is_visit:
            self.ask_badge()
            return
        self._desk.visits_next = True
        self._desk.refresh.broadcast(ANEW)

    def print_pack(self) -> None:
        """The pack of the jar or lot whose code was scanned or typed last."""
        scan = self._desk.last_scan()
        shown = self._shell.scan_box().scanned_code() or (scan.text if scan is not None else "")
        code = self._desk.code_of(shown)
        if code:
            made = self._sheets
            if made is None:
                made = importlib.import_module(SHEETS).Sheets(self._desk, self._say)
                self._sheets = made
            made.print_pack(code)
        else:
            self._say(Message(Mark.NOTE, self.tr("Scan a jar first; its pack is printed then.")))

    def ask_badge(self) -> None:
        """The visit is left by a badge; in a house that knows no people, at once."""
        if not self._signing.people:
            self._end("")
            return
        lead = self.tr("Scan your badge to end the visit.")
        self._say(Message(Mark.WAITING, lead, self.tr("Or type its code (F2).")))

    def _signed(self, person: Person | None) -> None:
        if self._desk.is_visit and person is not None:
            self._end(person.code)

    def _end(self, operator: str) -> None:
        desk = self._desk
        desk.settings = replace(desk.settings, operator=operator)
        desk.visits_next = False
        desk.refresh.broadcast(ANEW)
