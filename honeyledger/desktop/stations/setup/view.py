"""The set-up page: one short form at a time at the left, all that is registered at the right."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QTimeZone
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.setup.asks import YES, Ask, SetupKind, Typing, tr
from honeyledger.desktop.stations.setup.kinds import commands, records_of
from honeyledger.desktop.stations.setup.presenter import SetupPresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.commands import Commands
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.services.setup import SetupPage

DOCK = "dock"
_VESSELS = (Typing.LINE, Typing.VESSEL)


class KindForm(Form):
    """The form of one kind."""

    def __init__(self, kind: SetupKind, density: Density) -> None:
        super().__init__()
        self.kind = kind
        self.by_key: dict[str, FormField] = {}
        for row in rows_of(kind):
            fields: list[tuple[FormField, int]] = []
            for ask in row:
                made = _made(ask, density, is_name=ask is kind.asks[0])
                if ask.unit and isinstance(made, Field):
                    made.set_unit(ask.unit)
                self.by_key[ask.key] = made
                fields.append((made, 1))
            self.add_row(*fields)

    def values(self) -> dict[str, str]:
        """What stands in the form, as typed."""
        return {
            key: field.key() if isinstance(field, ChoiceButtons) else field.text()
            for key, field in self.by_key.items()
        }

    def fill(self, values: Mapping[str, str]) -> None:
        """Show these values."""
        for key, field in self.by_key.items():
            value = values.get(key, "")
            if isinstance(field, ChoiceButtons):
                field.set_key(value)
            else:
                field.set_text(value)
                field.set_refused(False)

    def show_page(self, page: SetupPage) -> None:
        """Offer what there is to choose from, in the house's unit."""
        for ask in self.kind.asks:
            field = self.by_key[ask.key]
            if isinstance(field, MassField):
                field.set_unit(page.unit)
            elif ask.typing in _VESSELS and isinstance(field, ChoiceField):
                vessels = page.registers.get("vessel", ())
                every = ask.typing is Typing.VESSEL
                names = [row.name for row in vessels if every or row.record.get("sort") == "line"]
                field.set_choices([Choice(name, name) for name in names])
        name = self.by_key["name"]
        if isinstance(name, ChoiceField):
            rows = records_of(self.kind, page)
            name.set_choices([Choice(row.key, row.name, row.key) for row in rows])


def rows_of(kind: SetupKind) -> list[list[Ask]]:
    """Its questions, row by row of the form."""
    rows: list[list[Ask]] = []
    for ask in kind.asks:
        if ask.beside and rows:
            rows[-1].append(ask)
        else:
            rows.append([ask])
    return rows


def _made(ask: Ask, density: Density, *, is_name: bool) -> FormField:
    label = ask.label
    match ask.typing:
        case Typing.COUNT:
            return CountField(label, density=density)
        case Typing.MASS:
            return MassField(label, density=density)
        case Typing.UNIT:
            units = [Choice("kg", "kg"), Choice("lb", "lb")]
            return ChoiceButtons(label, units, density=density)
        case Typing.YES:
            answers = [Choice("", tr("no")), Choice(YES, tr("yes"))]
            return ChoiceButtons(label, answers, density=density)
        case Typing.ZONE | Typing.LINE | Typing.VESSEL:
            return ChoiceField(label, density=density)
        case _ if is_name or ask.offers:
            offers = [Choice(words, words) for words in ask.offers]
            named = ChoiceField(label, offers, density=density)
            named.is_free = True
            return named
        case _:
            return TextField(label, density=density)


class SetupView:
    """The page of the set-up. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        density = desk.density(Density.DESK)
        zone = bytes(QTimeZone.systemTimeZoneId().data()).decode()
        self.presenter = SetupPresenter(desk, zone)
        self.panel = self._form_panel(density)
        self.table = self._table(density)
        self.listed = self._listed_panel(density)
        self.spread = Spread(
            [
                Part(self.panel, self.widget.tr("Set up"), 5, 4),
                Part(self.listed, self.widget.tr("Registered"), 7, 4),
            ]
        )
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.spread)
        self.presenter.shown.connect(self._show)
        self.presenter.zones_known.connect(self._offer_zones)
        self.presenter.turned.connect(self._turn)
        self.presenter.saved.connect(self.asks.say)
        self.presenter.refused.connect(self._refused)
        self.presenter.completed.connect(self._complete)
        self.slot.action_pressed.connect(lambda key: self.asks.open.emit(str(key)))
        self.presenter.working.connect(self.save.set_working)
        self.presenter.ask()

    def _form_panel(self, density: Density) -> Panel:
        tr = self.widget.tr
        panel = Panel(tr("Set up"), density=density)
        self.slot = panel.add_slot()
        self.forms = QStackedWidget()
        self.by_kind: dict[str, KindForm] = {}
        panel.set_body(self.forms)
        bar = panel.add_bar()
        self.save = bar.add_primary(tr("Save and go on"))
        self.skip = bar.add_secondary(tr("Skip"))
        self.to_dock = bar.add_plain(tr("Receive a pallet"))
        self.save.clicked.connect(self._save)
        self.skip.clicked.connect(self.presenter.skip)
        self.to_dock.clicked.connect(lambda: self.asks.open.emit(DOCK))
        for kind in self.presenter.kinds:
            form = KindForm(kind, density)
            self.by_kind[kind.key] = form
            self.forms.addWidget(form)
            name = form.by_key["name"]
            if isinstance(name, ChoiceField) and kind.key != "house":
                name.editor.editingFinished.connect(self._name_said)
        return panel

    def _listed_panel(self, density: Density) -> Panel:
        """What is registered, and behind it what is set up in a terminal until this page does."""
        tr = self.widget.tr
        panel = Panel(tr("What is registered"), density=density)
        will = tr(
            "This page will keep printers and label stocks, instruments and their calibration, "
            "backups and other stations."
        )
        note = tr("With another house than your own, add --house and its file.")
        self.commands = Commands(will, note, commands())
        self.bodies = QStackedWidget()
        self.bodies.addWidget(self.table)
        self.bodies.addWidget(self.commands)
        panel.set_body(self.bodies)
        bar = panel.add_bar()
        self.turning = bar.add_plain(tr("Backups, labels and margins, in a terminal"))
        self.turning.clicked.connect(self._turn_list)
        return panel

    def _turn_list(self) -> None:
        tr = self.widget.tr
        to_commands = self.bodies.currentWidget() is self.table
        self.bodies.setCurrentWidget(self.commands if to_commands else self.table)
        heading = tr("Meanwhile, in a terminal") if to_commands else tr("What is registered")
        self.listed.set_heading(heading)
        turn = tr("Backups, labels and margins, in a terminal")
        self.turning.setText(tr("What is registered") if to_commands else turn)

    def _table(self, density: Density) -> Table:
        tr = self.widget.tr
        columns: tuple[Column[SetupKind], ...] = (
            Column("title", tr("What"), lambda kind: kind.title, strong=True, least=140),
            Column("state", tr("State"), self._state, ColumnKind.STATE, mark=self._mark),
            Column("names", tr("There are"), self._names, ColumnKind.NAME),
            Column("count", tr("Number"), self._count, ColumnKind.NUMBER),
        )
        table = Table(columns, lambda kind: kind.key, density=density)
        table.view.setAccessibleName(tr("What is registered"))
        table.opened.connect(self._opened)
        table.view.clicked.connect(lambda _index: self._opened(table.selected_key()))
        return table

    def _rows(self, kind: SetupKind) -> Sequence[str]:
        page = self.presenter.page
        return [row.name for row in records_of(kind, page)] if page else []

    def _names(self, kind: SetupKind) -> str:
        return ", ".join(self._rows(kind))

    def _count(self, kind: SetupKind) -> str:
        count = len(self._rows(kind))
        return str(count) if count else ""

    def _state(self, kind: SetupKind) -> str:
        if self._rows(kind):
            return self.widget.tr("done")
        return self.widget.tr("needed") if kind.needed else self.widget.tr("if wanted")

    def _mark(self, kind: SetupKind) -> Mark:
        if self._rows(kind):
            return Mark.READY
        return Mark.WARNING if kind.needed else Mark.NOTE

    def _show(self, page: SetupPage) -> None:
        for form in self.by_kind.values():
            form.show_page(page)
        self.table.show_rows(self.presenter.kinds)
        self.table.select(self.presenter.kind.key)
        ready = self.presenter.is_ready()
        words = self.widget.tr("Receive a pallet") if ready else self.widget.tr("To the dock")
        self.to_dock.setText(words)

    def _offer_zones(self, zones: Sequence[str]) -> None:
        field = self.by_kind["house"].by_key["zone"]
        assert isinstance(field, ChoiceField)
        field.set_choices([Choice(zone, zone) for zone in zones])

    def _turn(self, kind: SetupKind) -> None:
        form = self.by_kind[kind.key]
        form.fill(self.presenter.begins_as(kind))
        self.forms.setCurrentWidget(form)
        # The buttons stand behind the form that is shown, for Tab too.
        form.finish_with(self.save)
        QWidget.setTabOrder(self.save, self.skip)
        QWidget.setTabOrder(self.skip, self.to_dock)
        self.panel.set_heading(kind.title)
        self.slot.clear()
        self.slot.set_next_step(kind.sentence)
        self.table.select(kind.key)
        if self.widget.isVisible():
            self._begin_form()

    def _begin_form(self) -> None:
        self.spread.show_part(0)
        self.by_kind[self.presenter.kind.key].begin()

    def _opened(self, key: str) -> None:
        if key:
            self.presenter.turn(key)

    def _name_said(self) -> None:
        """The name of a record that is there: show it, so that it can be changed."""
        form = self.by_kind[self.presenter.kind.key]
        values = self.presenter.values_of(form.values()["name"])
        if values is not None and form.values() != values:
            form.fill(values)
            words = self.widget.tr("Change it and save: the ledger keeps what it was before.")
            lead = self.widget.tr("This one is registered.")
            self.slot.show_messages([Message(Mark.NOTE, lead, words)])

    def _save(self) -> None:
        self.presenter.save(self.by_kind[self.presenter.kind.key].values())

    def _complete(self, first: bool) -> None:
        """Nothing needed is missing: the first pallet can come."""
        tr = self.widget.tr
        words = tr("Add more here, or go on to the dock.")
        offer = tr("Receive a pallet")
        lead = tr("All that is needed is there.")
        self.slot.show_messages([Message(Mark.READY, lead, words, offer, DOCK)])
        if first and self.widget.isVisible():
            self.slot.focus_action()

    def _refused(self, refusal: Refusal) -> None:
        lead = self.widget.tr("Not saved.")
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal.text)])
        form = self.by_kind[self.presenter.kind.key]
        field = form.by_key.get(refusal.field)
        if field is None:
            return
        if isinstance(field, Field):
            field.set_refused(True)
        form.take_focus(field)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard in the form."""
        self._begin_form()

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, action: str) -> bool:
        """Clear the form."""
        if action != "clear":
            return False
        self.presenter.turn(self.presenter.kind.key)
        return True
