"""One panel for a station's small forms: what happens, its fields, the slot, the button below.

All fields stand in one form, so that Enter and Tab go through them in order; which are shown is
decided by the form in hand and by what is typed in it.
"""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, Signal

from honeyledger.desktop import tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import (
    Ask,
    FormSpec,
    FormTyped,
    field_of,
    with_scan,
)
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asked_fields import (
    made_field,
    refuse_field,
    show_text,
    text_of,
)
from honeyledger.desktop.widgets.asked_lines import AskedLines
from honeyledger.desktop.widgets.buttons import Kind
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField, DateField
from honeyledger.desktop.widgets.fields import MassField
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit

_TWO_LINES_FROM = 700
_A_ROW = 4


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
        line_label: Callable[[int, str], str] = lambda at, code: f"{at}  {code}",
    ) -> None:
        super().__init__()
        self._asking, self._density = asking, density
        self._is_filling = False
        self.panel = Panel(heading, density=density)
        self.slot = self.panel.add_slot(tall=True)
        self.form = Form()
        self.kinds = self._kind_rows(what)
        self.fields: dict[str, dict[str, FormField]] = {}
        for spec in asking.specs.values():
            self._add_fields(spec)
        self._lines = AskedLines(asking, self.form, density, line_label)
        self._lines.edited.connect(self._edited)
        self.panel.set_body(self.form)
        bar = self.panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(asking.spec.button)
        self.off = bar.add_secondary(self.tr("Take off"))
        self.off.clicked.connect(lambda: self.take_line_off())
        self.form.finish_with(self.record)
        self.record.clicked.connect(self._submit)
        self.panel.installEventFilter(self)
        asking.filled.connect(self._filled)
        asking.warned.connect(self._warn)
        asking.working.connect(self.record.set_working)
        self.choose(asking.kind, begins=False)

    def _kind_rows(self, what: str) -> list[ChoiceButtons]:
        choices = [Choice(spec.key, spec.title) for spec in self._asking.specs.values()]
        rows = []
        for at in range(0, len(choices), _A_ROW):
            some = choices[at : at + _A_ROW]
            made = ChoiceButtons(what, some, density=self._density)
            made.label.setVisible(not at)
            made.chosen.connect(lambda key, made=made: self._kind_chosen(key, made))
            self.form.add_row((made, 1))
            rows.append(made)
        return rows

    def _add_fields(self, spec: FormSpec) -> None:
        made = self.fields.setdefault(spec.key, {})
        for row in spec.rows:
            parts = []
            for ask in row:
                field = made_field(ask, self._density, self._asking.reading().today)
                made[ask.key] = field
                self._listen(field, ask)
                parts.append((field, ask.part))
            self.form.add_row(*parts)
        if spec.line and spec.scan:
            self.form.on_enter(made[spec.scan], self._line_entered)

    def _listen(self, field: FormField, ask: Ask) -> None:
        if isinstance(field, ChoiceButtons):
            field.chosen.connect(lambda _key: self._edited())
            return
        field.edited.connect(lambda _text, key=ask.key: self._edited(key))
        field.editor.editingFinished.connect(self._edited)

    # What is offered.

    def offer(self, name: str, choices: Sequence[Choice]) -> None:
        """Give every field that chooses from a list of the station these choices."""
        for spec in self._asking.specs.values():
            for ask in spec.asks():
                field = self.fields[spec.key][ask.key]
                if ask.offers == name and isinstance(field, ChoiceField):
                    typed = text_of(field, ask)
                    field.set_choices(choices)
                    show_text(field, ask, typed)

    def set_unit(self, unit: MassUnit) -> None:
        """The house's unit, which is known only since the first answer."""
        for spec in self._asking.specs.values():
            fields = self.fields[spec.key]
            for ask in spec.asks():
                field = fields[ask.key]
                if isinstance(field, MassField) and not ask.unit:
                    field.set_unit(unit)
                elif isinstance(field, DateField):
                    field.set_today(self._asking.reading().today)
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
        self.chosen.emit(kind)
        if begins:
            self.begin()

    def _show_fields(self) -> None:
        """The fields of the form in hand, and of them those asked now."""
        spec, typed, reading = self._asking.spec, self._asking.now(), self._asking.reading()
        for key, fields in self.fields.items():
            for ask in self._asking.specs[key].asks():
                asked = key == spec.key and (ask.shown is None or ask.shown(typed, reading))
                fields[ask.key].setVisible(asked)
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
        if watched is self.panel and event.type() == QEvent.Type.Resize:
            # A hold with its way takes three lines of a narrow panel, two of a wide one.
            wide = self.panel.width() >= _TWO_LINES_FROM
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
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal.text)])
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
