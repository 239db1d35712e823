"""The label of the lot in hand as it will print, where labels are printed."""

from dataclasses import replace

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QVBoxLayout

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import see_label
from honeyledger.desktop.seen import SeenPaper
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.typed import LABELS, serials_of
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.paper_look import PaperLook
from honeyledger.domain.refusals import Refusal
from honeyledger.services.papers import Serials


class LabelSeen(QObject):
    """Asks how the first label wanted will print, and shows it; what is none shows nothing."""

    def __init__(
        self, desk: Desk, presenter: BottlingPresenter, look: PaperLook, *fields: Field
    ) -> None:
        super().__init__()
        self._desk, self._presenter, self._look = desk, presenter, look
        self._wanted: tuple[str, Serials] | None = None
        presenter.filled.connect(lambda _at: self.ask())
        presenter.shown.connect(lambda _page: self.ask(anew=True))
        for field in fields:
            field.edited.connect(lambda _text: self.ask())
        look.jobs = desk.jobs
        look.show_paper(None)

    def ask(self, *, anew: bool = False) -> None:
        """Ask for the label the form says, unless it is shown already."""
        wanted = self._asked()
        if wanted == self._wanted and not anew:
            return
        self._wanted = wanted
        if wanted is None:
            self._look.show_paper(None)
        else:
            see_label(self._desk, *wanted, lambda outcome: self._seen(wanted, outcome))

    def _asked(self) -> tuple[str, Serials] | None:
        typed = self._presenter.hand.typed
        if typed.kind != LABELS or not typed.lot.strip():
            return None
        try:
            return typed.lot.strip(), replace(serials_of(typed), last=0)
        except Refusal:
            return None

    def _seen(self, wanted: tuple[str, Serials], outcome: Outcome[SeenPaper]) -> None:
        if wanted == self._wanted:
            self._look.show_paper(outcome.value)


def share_room(body: QVBoxLayout, form: Form, look: PaperLook | None) -> None:
    """The fields get what they need; a label the rest, and nothing in a low window."""
    body.setStretchFactor(form, 1000 if look is not None else 0)
    if look is not None:
        body.setStretchFactor(look, 50)
    form.free_height()
    if look is not None:
        form.setMaximumHeight(form.room() + 8)
