"""How the house is kept: what needs a person, its backup, its head, the other stations."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.keeping import Keeping
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message, paper_of, print_pad, shown_path
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.presenter import EntriesPage
from honeyledger.desktop.stations.entries.rows import house_messages
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.services.backups import Backup


class HousePanel(QObject):
    """The keeping of the house, and a backup at a press.

    Signals:
        folder_chosen: the folder that backups go to from now on.
        left: back to the entry in hand.
    """

    folder_chosen = Signal(object)
    left = Signal()

    def __init__(self, desk: Desk, keeping: Keeping, density: Density) -> None:
        super().__init__()
        self._desk, self._keeping = desk, keeping
        self.panel = Panel(tr("How this house is kept"), density=density)
        self.slot = self.panel.add_slot()
        self.notes = Notes()
        self.panel.set_body(self.notes)
        bar = self.panel.add_bar()
        self.back_up = bar.add_primary(tr("Back up now"))
        self.folder = bar.add_secondary(tr("Choose a folder…"))
        self.pad = bar.add_plain(tr("Print the pad"))
        self.pad.setToolTip(tr("Paper to write on while the computer stands still (then Ctrl+G)"))
        self.entry = bar.add_plain(tr("The entry"))
        self.back_up.clicked.connect(keeping.back_up)
        self.folder.clicked.connect(self._choose)
        self.entry.clicked.connect(self.left)
        self.pad.clicked.connect(lambda: print_pad(desk, self._pad_printed))
        keeping.moved.connect(self._moved)
        keeping.made.connect(self._made)
        keeping.refused.connect(self._refused)
        keeping.working.connect(self.back_up.set_working)
        self._say_folder()

    def show_page(self, page: EntriesPage) -> None:
        """Say how the house is kept now."""
        desk = self._desk
        now_ms = desk.house.clock()
        self.notes.show_messages(house_messages(page, desk.keeper, desk.station, now_ms))

    def begin(self) -> None:
        """Put the keyboard on what is done next."""
        self.back_up.setFocus()

    def _say_folder(self) -> None:
        words = tr("Backups go to {folder}.").format(folder=shown_path(self._desk.backups))
        self.slot.set_next_step(words)

    def _choose(self) -> None:
        folder = self._desk.choose_folder(self.panel, self._desk.backups)
        if folder is not None:
            self.slot.clear()
            self.folder_chosen.emit(folder)
            self._say_folder()

    def _moved(self, done: int, of: int) -> None:
        share = tr("{n} % of the file.").format(n=100 * done // max(1, of))
        self.slot.show_messages([Message(Mark.WORKING, tr("Backing up:"), share)])

    def _made(self, backup: Backup) -> None:
        words = tr("It is {file}.").format(file=Path(backup.file).name)
        self.slot.show_messages([Message(Mark.READY, tr("Backed up."), words)])

    def _pad_printed(self, outcome: Outcome[Paper]) -> None:
        what = paper_of(outcome)
        if what is None:
            return
        words = tr("The paper pad:"), tr("No pad printed."), tr("It is in {file}.")
        self.slot.show_messages([paper_message(what, *words)])
        if isinstance(what, Paper) and not what.printer and what.to_ask is None:
            self._desk.open_paper(what.file)

    def _refused(self, refusal: Refusal) -> None:
        self.slot.show_messages(
            [Message(Mark.REFUSED, tr("Not backed up."), refusal_words(refusal))]
        )
