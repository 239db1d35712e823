"""The left panel of dispatch: what happens, its fields, the slot above and the button below."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QResizeEvent

from honeyledger.desktop import tokens
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.fields_view import SEND, DispatchFields
from honeyledger.desktop.stations.dispatch.note_form_view import NoteForm
from honeyledger.desktop.stations.dispatch.other_form_view import OtherForm
from honeyledger.desktop.stations.dispatch.other_presenter import OtherPresenter
from honeyledger.desktop.stations.dispatch.other_typed import AWAY, BACK, SAMPLE
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.rows import counted, sign_words, tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.buttons import Kind
from honeyledger.desktop.widgets.form import Form
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.services.dispatch_page import DispatchPage

_TWO_LINES_FROM = 700


class DispatchForm(QObject):
    """Fields in the order of the work; Enter moves on, the last Enter records.

    Signals:
        chosen: another thing happens now.
    """

    chosen = Signal(str)

    def __init__(
        self, presenter: DispatchPresenter, others: OtherPresenter, density: Density
    ) -> None:
        whole(self.pieces(presenter, others, density))

    def pieces(
        self, presenter: DispatchPresenter, others: OtherPresenter, density: Density
    ) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self._presenter, self._others = presenter, others
        self.kind = SEND
        self._said: Message | None = None
        self._warned: dict[str, Sequence[Message]] = {}
        self.panel = Panel(tr("Dispatch"), density=density)
        self.slot = self.panel.add_slot(tall=True)
        self.fields = yield from in_pieces(DispatchFields, density)
        yield
        self.form = Form()
        self.form.pin(self.fields.what)
        for row in self.fields.rows():
            self.form.add_row(*row)
        self.note = NoteForm(presenter, self.fields, self.form)
        self.other = OtherForm(others, self.fields, self.form)
        self.panel.set_body(self.form)
        bar = self.panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(tr("Sign and send"))
        self.form.finish_with(self.record)
        self.record.clicked.connect(self.submit)
        self.fields.what.set_key(SEND)
        self.fields.what.chosen.connect(self._what_chosen)
        self.panel.installEventFilter(self)
        self._connect()
        self._show_fields()

    def _connect(self) -> None:
        presenter, others = self._presenter, self._others
        self.note.said.connect(self.say)
        self.note.ready.connect(self._go_to_button)
        self.other.ready.connect(self._go_to_button)
        for part in (self.note, self.other):
            part.resized.connect(self._show_fields)
        presenter.warned.connect(lambda messages: self._warn(SEND, messages))
        others.warned.connect(lambda messages: self._warn(others.kind, messages))
        presenter.told.connect(self.say)
        presenter.working.connect(self.record.set_working)
        others.working.connect(self.record.set_working)
        presenter.changed.connect(self._say_next)

    # What is shown.

    def show_page(self, page: DispatchPage) -> None:
        """Offer what there is to choose from; what is typed stays."""
        self._others.show_page(page)
        self.note.show_page(page)
        if self.kind != SEND:
            self.other.show_page(page)
        self._say_next()

    def choose(self, kind: str, *, begins: bool = True) -> None:
        """Show the fields of what happens; what was typed for them is still there."""
        self.kind = kind
        self.fields.what.set_key(kind)
        self.record.kind = Kind.GRAVE if kind == AWAY else Kind.PRIMARY
        if kind != SEND:
            self.other.choose(kind)
        self._said = None
        self._show_messages()
        self._say_next()
        self._show_fields()
        self.chosen.emit(kind)
        if begins:
            self.begin()

    def _show_fields(self) -> None:
        part = self.note if self.kind == SEND else self.other
        shown = {self.fields.what, *self.fields.own(self.kind), *part.asked()}
        for field in self.form.fields():
            field.setVisible(field in shown)

    def _say_next(self) -> None:
        """The next step of what happens."""
        note = self._presenter.note
        steps = {
            BACK: tr("Scan what came back: a jar, a drum, or its dispatch note."),
            AWAY: tr("Scan what is thrown away, and say why. It can be reversed."),
            SAMPLE: tr("Scan each lot the sample is of; say its weight and where it is kept."),
        }
        words = steps.get(self.kind, "")
        if self.kind == SEND and not note.picked:
            words = tr("Scan the drums and jars that go, or type what the order wants.")
            aside = len(self._presenter.open.aside)
            if aside and not note.is_begun:
                other = counted(aside, tr("1 note is open"), tr("{n} notes are open"))
                words = tr("{other}. Scan what goes, or take one up.").format(other=other)
        elif self.kind == SEND:
            words = tr("Scan on. Enter in the empty field goes to the button that signs.")
        self.slot.set_next_step(words)
        self._say_button()

    def _say_button(self) -> None:
        """What pressing it does, with what is on the note so far."""
        words = {
            BACK: tr("Take back"),
            AWAY: tr("Throw away"),
            SAMPLE: tr("Take the sample"),
        }
        signs = sign_words(self._presenter.note, self._presenter.page)
        self.record.setText(words.get(self.kind, signs))

    def say(self, message: Message) -> None:
        """Say this until the next scan, beside what is to be known of the note."""
        self._said = message
        self._show_messages()

    def _warn(self, kind: str, messages: Sequence[Message]) -> None:
        self._warned[kind] = messages
        if kind == self.kind:
            self._show_messages()

    def _show_messages(self) -> None:
        said = [self._said] if self._said else []
        self.slot.show_messages([*said, *self._warned.get(self.kind, ())])

    def show_refusal(self, refusal: Refusal) -> None:
        """Why it was not taken, and the keyboard where it can be mended."""
        lead = tr("Not recorded.")
        if self.kind == SEND and refusal.field == "code":
            lead = tr("Not on the note.")
        self._said = None
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal_words(refusal))])
        part = self.note if self.kind == SEND else self.other
        part.show_refusal(refusal)

    # The keyboard.

    def begin(self) -> None:
        """The keyboard goes where work goes on."""
        if not self.panel.isVisible():
            return
        if self.kind == SEND:
            self.note.begin()
        else:
            self.other.begin()

    def _go_to_button(self) -> None:
        self.record.setFocus(Qt.FocusReason.OtherFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent):
            # A hold with its way takes three lines of a narrow panel, two of a wide one.
            wide = self.panel.width() >= _TWO_LINES_FROM
            self.slot.setFixedHeight(tokens.SLOT_HEIGHT if wide else tokens.SLOT_TALL_HEIGHT)
        return super().eventFilter(watched, event)

    def _what_chosen(self, kind: str) -> None:
        """With the arrows a person goes on to the next one; a press goes into the fields."""
        self.choose(kind, begins=not self.fields.what.is_by_arrow)

    # Recording.

    def submit(self) -> None:
        """Record what the form says."""
        if self.kind == SEND:
            self._presenter.send()
        else:
            self._others.record()

    def done(self) -> None:
        """Something was recorded: the slot says what comes next."""
        self._said = None
        self._warned[self.kind] = ()
        self._show_messages()
        self._say_next()
        self.begin()
