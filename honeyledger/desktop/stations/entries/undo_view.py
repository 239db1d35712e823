"""Reversing: what goes with it is seen first; then a reason, and one press does it all."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.presenter import EntriesPresenter, Previewed
from honeyledger.desktop.stations.entries.rows import entry_columns, undo_messages
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_number


def reasons() -> list[Choice]:
    """What mistakes are mostly called; another may be typed."""
    words = (
        tr("typed twice"),
        tr("wrong figure"),
        tr("wrong code"),
        tr("never happened"),
        tr("only tried out"),
    )
    return [Choice(word, word) for word in words]


class UndoPanel(QWidget):
    """The chain of an entry, newest first, and the reason.

    Signals:
        amend_asked: amend it instead.
        left: nothing is to be reversed.
    """

    amend_asked = Signal()
    left = Signal()

    def __init__(self, presenter: EntriesPresenter, density: Density) -> None:
        super().__init__()
        self._presenter = presenter
        self.panel = Panel(tr("Reverse"), density=density)
        self.slot = self.panel.add_slot(tall=True)
        self.table = Table(entry_columns(whole=False), lambda row: str(row.entry), density=density)
        self.table.view.setAccessibleName(tr("What would be reversed, newest first"))
        self.reason = ChoiceField(tr("Why: choose, or say it in a word or two"), density=density)
        self.reason.is_free = True
        self.reason.set_choices(reasons())
        self.form = Form()
        self.form.add_row((self.reason, 1))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.table, 1)
        column.addWidget(self.form)
        self.panel.set_body(self)
        bar = self.panel.add_bar()
        self.reverse = bar.add_primary(tr("Reverse it"))
        self.amend = bar.add_secondary(tr("Amend…"))
        self.back = bar.add_plain(tr("Leave it"))
        self.all = bar.add_grave(tr("Reverse all"))
        self.form.finish_with(self.reverse)
        self.reverse.clicked.connect(self.submit)
        self.all.clicked.connect(self.submit)
        self.amend.clicked.connect(self.amend_asked)
        self.back.clicked.connect(self.left)
        presenter.working.connect(self.reverse.set_working)
        presenter.working.connect(self.all.set_working)

    def show_preview(self, preview: Previewed) -> None:
        """Show what would be reversed; the reason stays."""
        rows = preview.what.rows
        self.panel.set_heading(tr("Reverse entry {n}").format(n=format_number(preview.entry)))
        self.slot.set_next_step(
            tr("Say why. The entry stays, and one that takes it back follows it.")
        )
        self.slot.show_messages(undo_messages(preview))
        self.table.show_rows(rows)
        count = format_number(len(rows))
        self.table.show_totals(
            tr("1 entry") if len(rows) == 1 else tr("{n} entries").format(n=count), {}
        )
        self.table.say_rows()
        self.all.setText(tr("Reverse all {n}").format(n=count))
        can = preview.refusal is None
        self.reverse.setVisible(can and len(rows) == 1)
        self.all.setVisible(can and len(rows) > 1)
        self.amend.setVisible(bool(preview.what.amends))
        self.form.setVisible(can)
        self.form.hold_height()
        self.form.finish_with(self.reverse if len(rows) == 1 else self.all)

    def begin(self) -> None:
        """Put the keyboard on the reason, or on what can be done instead."""
        if self.form.isVisibleTo(self):
            self.panel.keep_in_view(self.form)
            self.form.take_focus(self.reason)
        elif self.amend.isVisibleTo(self.panel):
            self.amend.setFocus()
        else:
            self.back.setFocus()

    def submit(self) -> None:
        """Reverse it for the reason given."""
        self._presenter.reverse(self.reason.text().strip())

    def show_refusal(self, refusal: Refusal) -> None:
        """Why it was not reversed."""
        words = Message(Mark.REFUSED, tr("Not reversed."), refusal_words(refusal))
        self.slot.show_messages([words])
        if refusal.field == "reason":
            self.reason.set_refused(True)
            self.begin()

    def clear(self) -> None:
        """Begin anew with the next one."""
        self.reason.clear()
