"""One panel for a station's small forms: what happens, its fields, the slot, the button below.

All fields stand in one form, so that Enter and Tab go through them in order; which are shown is
decided by the form in hand and by what is typed in it.
"""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QResizeEvent

from honeyledger.desktop import tokens
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import FormTyped, field_of, with_scan
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.asked_fields import (
    AskedFields,
    refuse_field,
    show_text,
    text_of,
)
from honeyledger.desktop.widgets.asked_lines import AskedLines
from honeyledger.desktop.widgets.buttons import Kind
from honeyledger.desktop.widgets.choice_buttons import BUTTON_GAP, ChoiceButtons, button_width
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit

_TWO_LINES_FROM = 700
_LOW = 480
_A_ROW = 4
# Inside the narrowest panel that stands beside another one, with its scroll bar.
_ROOM = 450


def in_rows(choices: Sequence[Choice], density: Density) -> list[list[Choice]]:
    """The buttons that choose a form, in as many rows as their words need."""
    rows: list[list[Choice]] = [[]]
    for choice in choices:
        widths = [button_width(one.text, density) + BUTTON_GAP for one in (*rows[-1], choice)]
        if rows[-1] and (len(widths) > _A_ROW or sum(widths) - BUTTON_GAP > _ROOM):
            rows.append([])
        rows[-1].append(choice)
    return rows


def at_its_place(at: int, code: str) -> str:
    """What is said of a lot of a list: its place, and its code."""
    return f"{at}  {code}"


class AskingPanel(QObject):
    """The left panel of a station with small forms.

    Args:
        what: what stands above the buttons that choose a form.
        line_label: what is said of a lot of a list, by its place and its code.

    Signals:
        chosen: another form is in hand.
    """

    chosen = Signal(str)

    def __init__(
        self,
        asking: Asking,
        heading: str,
        what: str,
        density: Density,
        line_label: Callable[[int, str], str] = at_its_place,
    ) -> None:
        whole(self.pieces(asking, heading, what, density, line_label))

    def pieces(
        self,
        asking: Asking,
        heading: str,
        what: str,
        density: Density,
        line_label: Callable[[int, str], str] = at_its_place,
    ) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self._asking, self._density = asking, density
        self._is_filling = False
        self.panel = Panel(heading, density=density)
        self.slot = self.panel.add_slot(tall=True)
        self.form = Form()
        self.kinds = self._kind_rows(what)
        yield
        self.fields = AskedFields(asking, self.form, density, self._line_entered)
        self.fields.edited.connect(self._edited)
        self._lines = AskedLines(asking, self.form, density, line_label)
        self._lines.edited.connect(self._edited)
        self.panel.set_body(self.form)
        bar = self.panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(asking.spec.button)
        self.off = bar.add_secondary(self.tr("Take off"))
        self.off.clicked.connect(lambda: self.take_line_off())
        self.form.finish_with(self.record)
        self.fields.came.connect(lambda: self.form.finish_with(self.record))
        self.record.clicked.connect(self._submit)
        self.panel.installEventFilter(self)
        yield
        asking.filled.connect(self._filled)
        asking.warned.connect(self._warn)
        asking.working.connect(self.record.set_working)
        self.choose(asking.kind, begins=False)

    def _kind_rows(self, what: str) -> list[ChoiceButtons]:
        choices = [Choice(spec.key, spec.title) for spec in self._asking.specs.values()]
        rows: list[ChoiceButtons] = []
        for some in in_rows(choices, self._density):
            made = ChoiceButtons(what, some, density=self._density)
            made.label.setVisible(not rows)
            made.chosen.connect(lambda key, made=made: self._kind_chosen(key, made))
            rows.append(made)
        self.form.pin(*rows)
        return rows

    # What is offered.

    def offer(self, name: str, choices: Sequence[Choice]) -> None:
        """Give every field that chooses from a list of the station these choices."""
        self.fields.offer(name, choices)

    def set_unit(self, unit: MassUnit) -> None:
        """The house's unit, which is known only since the first answer."""
        self.fields.set_unit(unit)
        self._lines.set_unit(unit)

    # Which form.

    def _kind_chosen(self, key: str, made: ChoiceButtons) -> None:
        self.choose(key, begins=not made.is_by_arrow)

    def choose(self, kind: str, *, begins: bool = True) -> None:
        """Show the fields of what happens; what was typed for them is still there."""
        self._asking.choose(kind)
        for row in self.kinds:
            keys = [made.choice.key for made in row.buttons()]
            row.set_key(kind if kind in keys else "")
        spec = self._asking.spec
        self.record.setText(spec.button)
        self.record.kind = Kind.GRAVE if spec.grave else Kind.PRIMARY
        self.slot.clear()
        self.slot.set_next_step(spec.step)
        self._filled(kind)
        # Another form begins at its top, where the buttons are that chose it.
        self.form.verticalScrollBar().setValue(0)
        self.chosen.emit(kind)
        if begins:
            self.begin()

    def _show_fields(self) -> None:
        """The fields asked now, and the lines of the form in hand."""
        self.fields.show_asked()
        spec, typed = self._asking.spec, self._asking.now()
        self._lines.show_only(spec.key, len(typed.lines))
        self.off.setVisible(bool(spec.line) and bool(typed.lines))

    # What stands in it.

    def _filled(self, kind: str) -> None:
        """A form changed by itself: a scan, a draft, a clear."""
        if kind != self._asking.kind:
            return
        spec, typed = self._asking.spec, self._asking.now()
        self._is_filling = True
        for ask in spec.asks():
            field = self.fields[kind][ask.key]
            refuse_field(field, False)
            show_text(field, ask, typed.values.get(ask.key, ""))
        if self._lines.show_lines(spec, typed.lines):
            self.form.finish_with(self.record)
        self._is_filling = False
        self._show_fields()

    def read(self) -> FormTyped:
        """The form in hand as it stands."""
        spec, typed = self._asking.spec, self._asking.now()
        fields = self.fields[spec.key]
        values = {ask.key: text_of(fields[ask.key], ask) for ask in spec.asks()}
        return FormTyped(
            {key: text for key, text in values.items() if text},
            self._lines.read(spec.key, typed.lines),
        )

    def _edited(self, at: str = "") -> None:
        if self._is_filling:
            return
        self._asking.type(self.read(), at)
        self._show_fields()

    # Enter, arrows, and what goes off again.

    def _line_entered(self) -> bool:
        """Enter behind a code adds its line; in the empty field it goes on to the first line."""
        spec, typed = self._asking.spec, self._asking.now()
        code = typed.text(spec.scan)
        if not code:
            return False
        self._asking.fill(with_scan(spec, typed.with_value(spec.scan, ""), code))
        self.form.take_focus(self.fields[spec.key][spec.scan])
        return True

    def take_line_off(self) -> None:
        """Take off the lot whose line had the keyboard last, else the last one."""
        typed = self._asking.now()
        codes = [line.code for line in typed.lines]
        if not codes:
            return
        code = self._lines.last if self._lines.last in codes else codes[-1]
        self._asking.take_off(code)
        self.begin()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.panel and isinstance(event, QResizeEvent):
            # A hold with its way takes three lines of a narrow panel, two of a wide one.
            is_low = self.panel.window().height() < _LOW
            wide = self.panel.width() >= _TWO_LINES_FROM or is_low
            self.slot.setFixedHeight(tokens.SLOT_HEIGHT if wide else tokens.SLOT_TALL_HEIGHT)
        return super().eventFilter(watched, event)

    def _submit(self) -> None:
        self._asking.type(self.read())
        self._asking.record()

    def line_field(self, name: str, code: str) -> FormField | None:
        """The field of a lot's answer in the form in hand."""
        return self._lines.field(self._asking.kind, name, code)

    # What it says.

    def say(self, message: Message) -> None:
        """Say one thing."""
        self.slot.show_messages([message])

    def _warn(self, messages: Sequence[Message]) -> None:
        self.slot.show_messages(messages)

    def show_refusal(self, refusal: Refusal) -> None:
        """Say why it was not recorded, and go to the field it is about."""
        lead = self.tr("Not recorded.")
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal_words(refusal))])
        spec = self._asking.spec
        name, code = field_of(spec, refusal)
        field = self._lines.field(spec.key, name, code) or self.fields[spec.key].get(name)
        if field is None or not field.isVisibleTo(self.form):
            return
        refuse_field(field, True)
        self.form.take_focus(field)

    # Where the keyboard goes.

    def begin(self) -> None:
        """The first field shown that has nothing in it, else the first one."""
        spec, typed = self._asking.spec, self._asking.now()
        shown = [
            ask for ask in spec.asks() if self.fields[spec.key][ask.key].isVisibleTo(self.form)
        ]
        if not shown:
            return
        empty = [ask for ask in shown if not typed.text(ask.key)]
        first = (empty or shown)[0]
        self.form.take_focus(self.fields[spec.key][first.key])
