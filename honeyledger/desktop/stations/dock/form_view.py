"""The form in which a pallet of supers is received."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dock.presenter import DockPresenter
from honeyledger.desktop.stations.dock.typed import FIELD_OF, LineTyped, Typed
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import CONDITIONS
from honeyledger.services.dock_page import DockPage

SETUP = "setup"


class DockForm:
    """Fields in the order of the work; Enter moves on, the last Enter receives the pallet."""

    def __init__(self, presenter: DockPresenter, density: Density) -> None:
        self._presenter = presenter
        self.panel = Panel(_tr("Receive supers"), density=density)
        self.slot = self.panel.add_slot(_tr("Scan the pull sheet of the first yard."))
        self.yard = ChoiceField(_tr("Yard: scan its pull sheet"), density=density)
        self.sheet = TextField(_tr("On its sheet"), density=density)
        self.pulled = DateField(_tr("Pulled"), presenter.today(), density=density)
        self.crew = ChoiceField(_tr("Crew"), density=density)
        self.crew.is_free = True
        self.supers = CountField(_tr("Supers"), density=density)
        self.box = ChoiceField(_tr("Box"), density=density)
        self.gross = MassField(_tr("Gross"), density=density)
        names = {"sealed": _tr("sealed"), "mixed": _tr("mixed"), "green": _tr("green")}
        conditions = [Choice(key, names[key]) for key in CONDITIONS]
        self.condition = ChoiceButtons(_tr("Condition"), conditions, density=density)
        self.moisture = TextField(_tr("Moisture"), unit="%", density=density)
        self.form = Form()
        self.form.add_row((self.yard, 360), (self.sheet, 92))
        self.form.add_row((self.pulled, 214), (self.crew, 238))
        self.form.add_row((self.supers, 142), (self.box, 152), (self.gross, 122))
        self.form.add_row((self.condition, 346), (self.moisture, 106))
        self.panel.set_body(self.form)
        bar = self.panel.add_bar(wide_primary=True)
        self.receive = bar.add_primary(_tr("Receive and print tag"))
        self.another = bar.add_secondary(_tr("Yard"), icon="plus")
        self.another.setAccessibleName(_tr("Another yard on this pallet"))
        self.another.setToolTip(_tr("Another yard on this pallet (Ctrl+N)"))
        self.form.finish_with(self.receive)
        self.receive.clicked.connect(presenter.receive)
        self.another.clicked.connect(lambda: presenter.keep_line())
        for name, field in self._texts().items():
            field.edited.connect(lambda _text, name=name: self._edited(name))
            field.editor.editingFinished.connect(self._edited)
        self.condition.chosen.connect(lambda _key: self._edited())
        presenter.filled.connect(self.fill)
        presenter.line_kept.connect(self.begin)
        presenter.warned.connect(self.say)
        presenter.working.connect(self.receive.set_working)
        self.fill(Typed())

    def _texts(self) -> dict[str, Field]:
        return {
            "yard": self.yard,
            "sheet": self.sheet,
            "pulled": self.pulled,
            "crew": self.crew,
            "supers": self.supers,
            "box": self.box,
            "gross": self.gross,
            "moisture": self.moisture,
        }

    def field(self, name: str) -> FormField:
        """A field by its name."""
        return self.condition if name == "condition" else self._texts()[name]

    # What stands in the form.

    def typed(self) -> Typed:
        """The form as it stands."""
        line = LineTyped(
            yard=self.yard.key() or self.yard.text(),
            sheet=self.sheet.text(),
            pulled=self.pulled.text(),
            crew=self.crew.text(),
            supers=self.supers.text(),
            box=self.box.key() or self.box.text(),
        )
        return Typed(
            line,
            self._presenter.typed.kept,
            gross=self.gross.text(),
            condition=self.condition.key(),
            moisture=self.moisture.text(),
        )

    def fill(self, typed: Typed) -> None:
        """Show these; nothing is reported as typed."""
        line = typed.line
        for field in self._texts().values():
            field.set_refused(False)
        _choose(self.yard, line.yard)
        _choose(self.box, line.box)
        for field, text in (
            (self.sheet, line.sheet),
            (self.pulled, line.pulled),
            (self.crew, line.crew),
            (self.supers, line.supers),
            (self.gross, typed.gross),
            (self.moisture, typed.moisture),
        ):
            if field.text() != text:
                field.set_text(text)
        self.condition.set_key(typed.condition)
        self._show_kept(typed.kept)
        repeated = (self.pulled, self.crew, self.box) if self._presenter.repeats() else ()
        self.form.pass_over(repeated)

    def _show_kept(self, kept: Sequence[LineTyped]) -> None:
        """Say above the yard what is on the pallet already."""
        parts = []
        for line in kept:
            yard = self._presenter.yard_of(line.yard)
            parts.append(f"{yard.name if yard else line.yard} {line.supers}")
        words = _tr("Yard: scan its pull sheet")
        if parts:
            words = _tr("On it: {yards}. Next yard").format(yards=", ".join(parts))
        self.yard.set_label(words)

    def _edited(self, at: str = "") -> None:
        """A field was changed, and is being typed in; "" when it was left."""
        self._presenter.type(self.typed(), at)

    # What the page and the ledger say.

    def show_page(self, page: DockPage) -> None:
        """Offer what there is to choose from."""
        self.yard.set_choices([Choice(row.code, row.name, say(row.detail)) for row in page.yards])
        self.box.set_choices([Choice(row.code, row.name) for row in page.boxes])
        self.crew.set_choices([Choice(name, name) for name in page.crews])
        self.pulled.set_today(page.today)
        self.gross.set_unit(page.unit)
        typed = self._presenter.typed
        _choose(self.yard, typed.line.yard)
        _choose(self.box, typed.line.box)
        self._say_next(page)

    def _say_next(self, page: DockPage) -> None:
        """The next step; a house that has no yard yet is told how to get one."""
        if not page.yards:
            words = _tr("Name the house and a first yard: it takes a minute.")
            start = Message(Mark.NOTE, _tr("No yard yet."), words, _tr("Set up"), SETUP)
            self.slot.show_messages([start])
            # The window may not have the keyboard yet, only know where it will be.
            if self.panel.window().focusWidget() is self.yard.editor and not self.yard.text():
                self.slot.focus_action()
            return
        shown = self.slot.shown()
        if shown is not None and shown.about == SETUP:
            self.slot.clear()
        if page.day.arrivals:
            last = page.day.arrivals[0].yard
            words = _tr("Scan the next pull sheet; Ctrl+R repeats {yard}.").format(yard=last)
        else:
            words = _tr("Scan the pull sheet of the first yard.")
        self.slot.set_next_step(words)

    def say(self, messages: Sequence[Message]) -> None:
        """Say these, but never over what a house without a yard is told."""
        page = self._presenter.page
        if page is None or page.yards:
            self.slot.show_messages(messages)

    def show_refusal(self, refusal: Refusal) -> None:
        """Say why it was not recorded, and go to the field it is about."""
        lead = _tr("Not recorded.")
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal_words(refusal))])
        name = FIELD_OF.get(refusal.field, "")
        if not name:
            return
        field = self.field(name)
        if isinstance(field, Field):
            field.set_refused(True)
        self.form.take_focus(field)

    # Where the keyboard goes.

    def begin(self) -> None:
        """The first field that has nothing in it yet, else the yard."""
        page = self._presenter.page
        if page is not None and not page.yards:
            self.slot.focus_action()
            return
        if self._presenter.typed.line.yard:
            self.go_to_supers()
        else:
            self.form.take_focus(self.yard)

    def go_to_supers(self) -> None:
        """The yard is said: its supers are counted next."""
        self.form.take_focus(self.supers)


def _choose(field: ChoiceField, key: str) -> None:
    """Choose by key; what is none of the choices stands as it was typed."""
    if field.key() == key and key:
        return
    if key in [choice.key for choice in field.choices()]:
        field.set_key(key)
    elif field.text() != key:
        field.set_text(key)
        field.set_unit("")


def _tr(text: str) -> str:
    return QCoreApplication.translate("dock", text)
