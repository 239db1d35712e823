"""Tells what needs a person about the house itself, and how its backup goes, in the toast line."""

from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.frame import Frame
from honeyledger.desktop.keeping import Keeping
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import shown_path
from honeyledger.desktop.widgets.toast import Toast
from honeyledger.domain.refusals import Refusal
from honeyledger.services.backups import Backup


@dataclass(frozen=True, slots=True)
class KeptMeant:
    """A toast offers to show how the house is kept."""


class HouseCare(QObject):
    """Warnings, each told once, and backups, from whichever page."""

    def __init__(self, desk: Desk, frame: Frame, toast: Toast, keeping: Keeping) -> None:
        super().__init__(frame)
        self._desk, self._frame, self._toast, self._keeping = desk, frame, toast, keeping
        frame.alerted.connect(self._alerted)
        keeping.moved.connect(self._moved)
        keeping.made.connect(self._made)
        keeping.refused.connect(self._refused)

    def back_up(self) -> None:
        """Back the house up now."""
        self._keeping.back_up()

    def _alerted(self, message: Message) -> None:
        """Something about the house needs a person; the foot says so until it is seen to."""
        if not message.action:
            message = replace(message, action=self.tr("Show"), about=KeptMeant())
        self._toast.show_message(message)

    def _moved(self, done: int, of: int) -> None:
        words = self.tr("{n} % of the file.").format(n=100 * done // max(1, of))
        self._toast.show_message(Message(Mark.WORKING, self.tr("Backing up:"), words))

    def _made(self, backup: Backup) -> None:
        words = self.tr("It is in {file}.").format(file=shown_path(Path(backup.file)))
        self._toast.show_message(Message(Mark.READY, self.tr("Backed up."), words))
        self._desk.refresh.broadcast(EVERYTHING)

    def _refused(self, refusal: Refusal) -> None:
        message = Message(Mark.REFUSED, self.tr("Not backed up."), refusal_words(refusal))
        self._toast.show_message(message)
