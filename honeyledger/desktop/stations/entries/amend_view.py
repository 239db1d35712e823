"""The form of an amendment: the books were wrong; codes stay, old and new are both in reach."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.entries.amends import (
    FIELD_OF,
    AmendKind,
    AmendTyped,
    Answer,
    amend_kinds,
    tr,
)
from honeyledger.desktop.stations.entries.presenter import EntriesPage, EntriesPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.fields import CodeField, Field, TextField
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.services.journal import Amendable


class AmendPanel(QObject):
    """What was wrong, of what, and what is right.

    Signals:
        left: nothing is to be amended.
    """

    left = Signal()

    def __init__(self, presenter: EntriesPresenter, density: Density) -> None:
        super().__init__()
        self._presenter = presenter
        self._page: EntriesPage | None = None
        self._ways: tuple[Amendable, ...] = ()
        self.kinds = {kind.key: kind for kind in amend_kinds()}
        self.panel = Panel(tr("Amend"), density=density)
        self.slot = self.panel.add_slot(tall=True)
        self.what = ChoiceField(tr("What was wrong"), density=density)
        self.about = CodeField(tr("Its code"), density=density)
        self.right = ChoiceField(tr("What is right"), density=density)
        self.code = CodeField(tr("What is right"), density=density)
        self.happened = TextField(
            tr("When it was loaded: a time, or yesterday 14:30"), density=density
        )
        self.reason = TextField(tr("What was wrong, in a word or two"), density=density)
        self.form = Form()
        for field in self.fields():
            self.form.add_row((field, 1))
        self.panel.set_body(self.form)
        bar = self.panel.add_bar()
        self.save = bar.add_primary(tr("Amend"))
        self.back = bar.add_plain(tr("Leave it"))
        self.narrow = bar.add_plain(tr("Narrow a reach…"))
        self.form.finish_with(self.save)
        self.save.clicked.connect(self.submit)
        self.back.clicked.connect(self.left)
        self.what.chosen.connect(lambda _key: self._turn())
        self.what.edited.connect(lambda _text: self._turn())
        presenter.working.connect(self.save.set_working)
        self._offer(tuple(self.kinds))
        self._turn()

    def fields(self) -> Sequence[Field]:
        """The fields in the order of the work."""
        return self.what, self.about, self.right, self.code, self.happened, self.reason

    def _offer(self, keys: Sequence[str]) -> None:
        """Offer these ways first, and all the others behind them."""
        order = [*keys, *(key for key in self.kinds if key not in keys)]
        self.what.set_choices([Choice(key, self.kinds[key].title) for key in order])

    def kind(self) -> AmendKind | None:
        """What was wrong, as chosen."""
        return self.kinds.get(self.what.key())

    # What is shown.

    def show_page(self, page: EntriesPage) -> None:
        """Offer what there is to choose from."""
        self._page = page
        self._choices()

    def show_ways(self, ways: Sequence[Amendable]) -> None:
        """Begin with an entry that can be amended: what can be wrong with it, and its code."""
        self._ways = tuple(ways)
        for field in self.fields():
            field.clear()
        self._offer(list(dict.fromkeys(way.what for way in ways)))
        if ways:
            self.what.set_key(ways[0].what)
        self._turn()

    def restore(self, typed: AmendTyped) -> None:
        """Show again what was being typed."""
        self.show_ways(())
        self.what.set_key(typed.what)
        self._turn()
        self.about.set_text(typed.about)
        self.code.set_text(typed.right)
        if typed.right in [choice.key for choice in self.right.choices()]:
            self.right.set_key(typed.right)
        else:
            self.right.set_text(typed.right)
        self.happened.set_text(typed.happened)
        self.reason.set_text(typed.reason)

    def take_code(self, code: str, letter: str) -> bool:
        """A label was scanned: it is what is amended, or the code of what is right."""
        kind = self.kind()
        if kind is not None and kind.right == letter:
            self.code.set_text(code)
            return True
        if kind is None or letter not in (kind.letters or " "):
            return False
        self.about.set_text(code)
        return True

    def _turn(self) -> None:
        """Show the fields of what was wrong; what the books say is told."""
        kind = self.kind()
        self.about.set_label(kind.about if kind else tr("Its code"))
        asks = kind.asks if kind else tr("What is right")
        self.right.set_label(asks)
        self.code.set_label(asks)
        is_coded = kind is not None and kind.answer is Answer.CODE
        self.right.setVisible(not is_coded)
        self.code.setVisible(is_coded)
        self.happened.setVisible(kind is not None and kind.has_time)
        way = next((one for one in self._ways if kind and one.what == kind.key), None)
        if way is not None:
            self.about.set_text(way.code)
        self._choices()
        self.slot.set_next_step(tr("Old and new stay in reach until somebody narrows it by name."))
        self.slot.clear()
        if way is not None and way.now:
            self.slot.show_messages(
                [Message(Mark.NOTE, tr("The books say: {now}.").format(now=way.now))]
            )

    def _choices(self) -> None:
        kind = self.kind()
        if self._page is None or kind is None:
            return
        rows = self._page.registers.get(kind.register, ())
        self.right.set_choices([Choice(row.code, row.name, say(row.detail)) for row in rows])

    def begin(self) -> None:
        """Put the keyboard where something is still to be said."""
        for field in (self.what, self.about, self.right, self.code):
            if field.isVisibleTo(self.form) and not field.text():
                self.form.take_focus(field)
                return
        self.form.take_focus(self.reason)

    # What it says.

    def typed(self) -> AmendTyped:
        """The form as it stands."""
        kind = self.kind()
        is_coded = kind is not None and kind.answer is Answer.CODE
        right = self.code.text() if is_coded else self.right.key() or self.right.text()
        return AmendTyped(
            kind.key if kind else "",
            self.about.text(),
            right,
            self.happened.text() if kind is not None and kind.has_time else "",
            self.reason.text(),
        )

    def submit(self) -> None:
        """Record the amendment."""
        if self.kind() is None:
            self.what.set_refused(True)
            words = tr("Choose what was wrong.")
            self.slot.show_messages([Message(Mark.REFUSED, tr("Not amended."), words)])
            self.form.take_focus(self.what)
            return
        self._presenter.amend(self.typed())

    def show_refusal(self, refusal: Refusal) -> None:
        """Why it was not amended; the field it is about has the keyboard."""
        self.slot.show_messages(
            [Message(Mark.REFUSED, tr("Not amended."), refusal_words(refusal))]
        )
        name = FIELD_OF.get(refusal.field, "")
        kind = self.kind()
        right: Field = self.right
        if kind is not None and kind.answer is Answer.CODE:
            right = self.code
        fields: dict[str, Field] = {
            "about": self.about,
            "right": right,
            "happened": self.happened,
            "reason": self.reason,
        }
        if name in fields:
            fields[name].set_refused(True)
            self.form.take_focus(fields[name])
