"""The set-up page: every kind at the left, the form in hand, what there is of it at the right."""

from functools import partial
from itertools import pairwise

from PySide6.QtCore import QTimeZone
from PySide6.QtWidgets import QApplication, QWidget

from honeyledger.desktop import style, system_looks
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.setup.asks import Deed, SetupKind, tr
from honeyledger.desktop.stations.setup.beside_view import Beside
from honeyledger.desktop.stations.setup.form_view import KindForm, KindForms
from honeyledger.desktop.stations.setup.kinds import records_of
from honeyledger.desktop.stations.setup.panel_view import DOCK, FormPanel
from honeyledger.desktop.stations.setup.presenter import SetupPresenter
from honeyledger.desktop.stations.setup.records import record_rows
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced
from honeyledger.desktop.widgets.choices import ChoiceField
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal
from honeyledger.services.setup_page import SetupPage

FORM = 1


class SetupView(Pieced):
    """The page of the set-up. See `StationView`."""

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        density = desk.density(Density.DESK)
        zone = bytes(QTimeZone.systemTimeZoneId().data()).decode()
        self.presenter = SetupPresenter(desk, zone)
        self.panel = FormPanel(density)
        self.slot, self.forms = self.panel.said, self.panel.forms
        self.save, self.skip, self.more = self.panel.save, self.panel.skip, self.panel.more
        yield
        self.by_kind = KindForms(self._made_form)
        self.table = _kinds_table(self, density)
        self.listed = Panel(tr("What is set up"), density=density)
        self.listed.set_body(self.table)
        self.to_dock = self.listed.add_bar().add_plain(tr("Receive a pallet"))
        self.to_dock.clicked.connect(lambda: self.asks.open.emit(DOCK))
        yield
        self.beside = Beside(desk, self.presenter, self.by_kind, self.asks, density)
        self.there = self.beside.panel
        yield
        self.spread = Spread(
            [
                Part(self.listed, tr("What is set up"), 3, 8),
                Part(self.panel, tr("Set up"), 5, 8),
                Part(self.there, tr("What there is"), 4, 8),
            ]
        )
        self.spread.fill(self.widget)
        self._connect()
        self.presenter.ask()
        self.by_kind.make_in_turns(desk.jobs.turns, lambda: self.presenter.kind, density)

    def _connect(self) -> None:
        told = self.presenter
        told.shown.connect(self._show)
        told.zones_known.connect(self.by_kind.offer_zones)
        told.turned.connect(self._turn)
        told.saved.connect(self.asks.told)
        told.refused.connect(self._refused)
        told.noted.connect(self.panel.say_notes)
        told.problems.connect(self.there.show_problems)
        self.there.opened.connect(self._take_in_hand)
        told.completed.connect(self._complete)
        told.looked.connect(_wear)
        told.working.connect(self.save.set_working)
        self.slot.action_pressed.connect(lambda about: self.asks.open.emit(str(about)))
        self.save.clicked.connect(self._save)
        self.skip.clicked.connect(told.skip)
        self.more.clicked.connect(self._more)

    def _form(self) -> KindForm:
        """The form of the kind in hand."""
        return self.by_kind[self.presenter.kind.key]

    def _made_form(self, key: str) -> KindForm:
        """The form of a kind, when it is first in hand: the page waits for none before."""
        kind = next(one for one in self.presenter.kinds if one.key == key)
        form = KindForm(kind, self.panel.density, self.by_kind.begun.pop(key, None))
        self.forms.addWidget(form)
        # Tab comes to it from the kinds, and not behind all else in the window.
        for before, after in pairwise((self.to_dock, *form.stops())):
            QWidget.setTabOrder(before, after)
        form.changed.connect(self._typed)
        name = form.by_key.get("name")
        if kind.deed is Deed.PRINTER and isinstance(name, ChoiceField):
            name.editor.editingFinished.connect(partial(self._name_said, form))
        if kind.register and isinstance(name, ChoiceField):
            form.on_enter(name, self._name_entered)
            if key != "house":
                name.editor.editingFinished.connect(partial(self._name_said, form))
        return form

    # What is shown.

    def _show(self, page: SetupPage) -> None:
        self.by_kind.show_page(page)
        station = self.presenter.station
        self.by_kind.offer_papers(station.names, station.stocks(page))
        self.table.show_rows(self.presenter.kinds)
        self.table.select(self.presenter.kind.key)
        self.beside.show_records()

    def _turn(self, kind: SetupKind) -> None:
        form = self.by_kind[kind.key]
        form.is_whole = False
        form.fill(self.presenter.form_of(kind))
        self.forms.setCurrentWidget(form)
        usual = tr("Save and go on") if self.presenter.way.is_on else tr("Save")
        self.save.setText(kind.button or usual)
        self._name_more(form)
        ready = self.presenter.is_ready()
        self.to_dock.setText(tr("Receive a pallet") if ready else tr("To the dock"))
        # The buttons stand behind the form that is shown, for Tab too.
        form.finish_with(self.save)
        for before, after in pairwise((self.save, self.skip, self.more)):
            QWidget.setTabOrder(before, after)
        self.panel.set_heading(kind.title)
        self.spread.name_part(FORM, kind.title)
        self.slot.clear()
        self.slot.set_next_step(self.presenter.sentence())
        self.there.show_problems([])
        self.table.select(kind.key)
        self.beside.show_records()
        self.beside.draw(form)
        # Who typed before the house answered goes on where the cursor stands.
        if self.widget.isVisible() and not self.presenter.goes_on:
            self._begin_form()

    def _name_more(self, form: KindForm) -> None:
        words = {
            Deed.TABLE: tr("Choose a file…"),
            Deed.PRINTER: tr("Calibration page"),
            Deed.PAPERS: tr("Open the folder"),
        }
        facts = tr("Fewer facts") if form.is_whole else tr("More facts")
        self.more.setVisible(form.kind.deed in words or form.has_later())
        self.more.setText(words.get(form.kind.deed, facts))

    def _more(self) -> None:
        """The facts that are asked later; for a table, its file."""
        form = self._form()
        match form.kind.deed:
            case Deed.TABLE:
                self._choose_file(form)
                return
            case Deed.PRINTER:
                self.presenter.calibrate(form.values())
                return
            case Deed.PAPERS:
                self._desk.papers.mkdir(parents=True, exist_ok=True)
                self._desk.open_paper(self._desk.papers)
                return
        form.show_later(not form.is_whole)
        self._name_more(form)

    def _choose_file(self, form: KindForm) -> None:
        file = self._desk.choose_file(self.widget)
        field = form.by_key["file"]
        if file is not None and isinstance(field, Field):
            field.set_text(str(file))
            self._typed()
        form.take_focus(field)

    def _begin_form(self) -> None:
        self.spread.show_part(FORM)
        form = self._form()
        if form.fields():
            form.begin()
        else:
            self.save.setFocus()

    # What a person does.

    def open_kind(self, key: str) -> None:
        """A kind was chosen in the list."""
        if key and key != self.presenter.kind.key:
            self.presenter.turn(key)
        elif key:
            self._begin_form()

    def _take_in_hand(self, key: str) -> None:
        """A record was opened: its form shows it."""
        values = self.presenter.values_of(key)
        if values is not None:
            self._form().fill(values)
            self.panel.say_known()
            self._begin_form()

    def _typed(self) -> None:
        form = self._form()
        self.presenter.type(form.values())
        self.beside.draw(form)
        self._name_more(form)

    def _name_entered(self) -> bool:
        """Enter on an empty name goes on, where a new house has what it needs of the kind."""
        values = self._form().values()
        if values["name"].strip() or not self.presenter.may_go_on():
            return False
        self.presenter.skip()
        return True

    def _name_said(self, form: KindForm) -> None:
        """The name of a record that is there: show it, so that it can be changed."""
        if form.kind is not self.presenter.kind:
            return
        typed = form.values()
        name = typed.pop("name")
        begins = self.presenter.begins_as(form.kind)
        if any(text != begins.get(key, "") for key, text in typed.items()):
            return  # Facts are typed already, or shown.
        values = self.presenter.values_of(name)
        if values is not None and form.values() != values:
            form.fill(values)
            self._name_more(form)
            self.panel.say_known()

    def _save(self) -> None:
        kind = self.presenter.kind
        if kind.deed is Deed.KEPT:
            self.asks.kept.emit()
        elif kind.deed is Deed.OPEN:
            self.asks.open.emit(kind.opens)
        else:
            self.presenter.save(self.by_kind[kind.key].values())

    # What it says.

    def _complete(self) -> None:
        """Nothing needed is missing: the first pallet can come."""
        self.panel.say_complete()
        if self.widget.isVisible():
            self.slot.focus_action()

    def _refused(self, refusal: Refusal) -> None:
        self.panel.say_refusal(refusal)
        form = self._form()
        field = form.by_key.get(refusal.field)
        if field is None:
            return
        if not field.isVisibleTo(form):
            form.show_later(True)
            self._name_more(form)
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
        """Clear the form, print badges, or open the calibration page that was printed."""
        if action == "print":
            return self.beside.print_in_hand()
        if action != "clear":
            return False
        self.presenter.clear()
        return True


def _kinds_table(view: SetupView, density: Density) -> Table:
    """All that is set up, with how many there are of each."""
    told = view.presenter

    def rows(kind: SetupKind) -> int:
        page = told.page
        if page is None:
            return 0
        return len(records_of(kind, page) if kind.register else record_rows(kind, page))

    def mark(kind: SetupKind) -> Mark:
        if rows(kind):
            return Mark.READY
        return Mark.WARNING if kind.needed else Mark.NOTE

    def count(kind: SetupKind) -> str:
        if not rows(kind):
            return tr("needed") if kind.needed else ""
        return str(rows(kind))

    columns: tuple[Column[SetupKind], ...] = (
        Column("title", tr("What"), lambda kind: kind.title, strong=True, least=140, mark=mark),
        Column("count", tr("Number"), count, ColumnKind.NUMBER),
    )
    table = Table(columns, lambda kind: kind.key, density=density)
    table.view.setAccessibleName(tr("What is set up"))
    table.opened.connect(view.open_kind)
    table.view.clicked.connect(lambda _index: view.open_kind(table.selected_key()))
    return table


def _wear(choice: str) -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    style.wear(app, system_looks.theme_for(choice))
