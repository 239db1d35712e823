"""The hot room's page: its air and what is done at the left, what waits at the right."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSizePolicy, QStackedWidget, QWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.room_asks import ROOM, ROOMS
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.hot_room.air_view import AirCharts
from honeyledger.desktop.stations.hot_room.asks import LOG, PALLETS, REASONS, YARDS, reasons
from honeyledger.desktop.stations.hot_room.order import Order
from honeyledger.desktop.stations.hot_room.plan_view import RunPlan
from honeyledger.desktop.stations.hot_room.presenter import HotRoomPresenter
from honeyledger.desktop.stations.hot_room.rows import (
    air_figures,
    air_heading,
    heading,
    totals,
    wait_columns,
    waits_words,
    yards_words,
)
from honeyledger.desktop.stations.hot_room.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.asking_page import TOTALS_HEIGHT, AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.row_drag import RowDrag
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.services.hot_room_page import HotRoomPage

EXTRACTION = "extraction"
PALLET = "G"
# Below this width the bar has no room for what Ctrl+4 does as well.
WIDE = 760


class HotRoomView(AskingPage):
    """The page of the hot room. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.presenter = HotRoomPresenter(desk)
        super().__init__(desk, self.presenter, Density.FLOOR)
        self.sheets = Sheets(desk, self.asks.told)
        self.form = yield from in_pieces(
            AskingPanel, self.presenter.asking, tr("Hot room"), tr("What is done"), self.density
        )
        yield
        listed = self._made_list()
        yield
        self._connect()
        self.lay_out(tr("What is done"), listed, tr("What waits"))

    def _made_list(self) -> Panel:
        panel = Panel(tr("What waits"), density=self.density)
        self.table = Table(
            wait_columns("kg", Order()),
            lambda one: one.code,
            density=self.density,
            empty=tr("Nothing waits. Pallets come here from the dock (Ctrl+2)."),
            plan=TablePlan(foot_height=TOTALS_HEIGHT),
        )
        self.table.view.setAccessibleName(tr("What waits, and the order of the next run"))
        self.figures = KeyFigures(density=Density.DESK)
        self.table.set_above_foot(self.figures)
        self.table.view.installEventFilter(self)
        self.drag = RowDrag(self.table)
        self.air = AirCharts()
        self.plan: RunPlan | None = None
        self.bodies = QStackedWidget()
        self.bodies.addWidget(self.table)
        self.bodies.addWidget(self.air)
        self._give_room(self.table)
        self.bodies.installEventFilter(self)
        panel.set_body(self.bodies)
        bar = panel.add_bar()
        self.join = bar.add_secondary(tr("Next run"))
        self.earlier = bar.add_secondary(tr("Up"))
        self.later = bar.add_secondary(tr("Down"))
        self.turning = bar.add_secondary(tr("Chart"))
        self.planning = bar.add_secondary(tr("Plan"))
        self.planning.setToolTip(tr("Proposes runs that keep a later recall small"))
        self.to_floor = bar.add_plain(tr("To the run"))
        self.join.setToolTip(tr("Into the next run, or out of it (Space)"))
        self.earlier.setToolTip(tr("Goes in earlier (Ctrl+Up)"))
        self.later.setToolTip(tr("Goes in later (Ctrl+Down)"))
        self.earlier.setAccessibleName(tr("Goes in earlier"))
        self.later.setAccessibleName(tr("Goes in later"))
        return panel

    def _connect(self) -> None:
        presenter, asking = self.presenter, self.presenter.asking
        presenter.shown.connect(self._show)
        presenter.reordered.connect(self._show_rows)
        asking.changed.connect(self._show_air)
        asking.warned.connect(self._say_waiting)
        self.form.chosen.connect(lambda _kind: self._say_waiting())
        self.table.selected.connect(lambda _key: self._show_air())
        self.table.opened.connect(self._take_in_hand)
        self.drag.moved.connect(presenter.place)
        self.join.clicked.connect(lambda: self._with_chosen(presenter.toggle))
        self.earlier.clicked.connect(
            lambda: self._with_chosen(lambda key: presenter.shift(key, -1))
        )
        self.later.clicked.connect(lambda: self._with_chosen(lambda key: presenter.shift(key, 1)))
        self.turning.clicked.connect(self.turn)
        self.planning.clicked.connect(self.turn_to_plan)
        self.to_floor.clicked.connect(lambda: self.asks.open.emit(EXTRACTION))

    # What is shown.

    def _show(self, page: HotRoomPage) -> None:
        form = self.form
        form.set_unit(page.unit)
        form.offer(
            PALLETS, [Choice(row.code, row.code, yards_words(row.yards)) for row in page.rows]
        )
        form.offer(ROOMS, [Choice(room.name, room.name) for room in page.rooms])
        form.offer(YARDS, [Choice(yard.code, yard.name) for yard in page.yards])
        form.offer(REASONS, [Choice(key, words) for key, words in reasons().items()])
        if self.plan is not None:
            self.plan.show_page(page)
        self._say_waiting()
        self._show_rows()

    def _say_waiting(self, messages: Sequence[Message] = ()) -> None:
        """With nothing else to say, what waits too long comes before the next step."""
        page, asking = self.presenter.page, self.presenter.asking
        words = waits_words(page.rows) if page else ""
        if words and not messages and asking.kind == LOG and self.form.slot.shown() is None:
            self.form.say(Message(Mark.WAITING, words))

    def _show_rows(self) -> None:
        page = self.presenter.page
        if page is None:
            return
        rows = self.presenter.rows()
        self.listed.set_heading(heading(page))
        self.table.model.columns = wait_columns(page.unit, self.presenter.order)
        self.table.show_rows(rows)
        self.table.show_totals(*totals(rows, self.presenter.order, page.unit))
        self._show_air()

    def _show_air(self) -> None:
        """The air of the room that is typed, else of the one read last."""
        page, asking = self.presenter.page, self.presenter.asking
        if page is None:
            return
        room = page.room(asking.now().text(ROOM)) or page.room()
        row = self.presenter.row(self.table.selected_key())
        shown = [KeyFigure(one.figure, one.meaning) for one in air_figures(room)]
        self.figures.show_figures(air_heading(room, row), shown)
        self.air.show_air(page, room, row)

    def turn(self) -> None:
        """From what waits to the air of the last fortnight, and back."""
        self._show_body(self.table if self.bodies.currentWidget() is self.air else self.air)

    def turn_to_plan(self) -> None:
        """From what waits to the runs that are proposed, and back; made when first asked for."""
        if self.plan is None:
            assert self.listed.bar is not None
            self.plan = RunPlan(self.desk, self.presenter, Density.DESK, self.listed.bar)
            self.plan.told.connect(self.asks.told)
            self.bodies.addWidget(self.plan)
            if self.presenter.page is not None:
                self.plan.show_page(self.presenter.page)
            self.asks.grown.emit()
        self._show_body(self.table if self.bodies.currentWidget() is self.plan else self.plan)

    def _show_body(self, body: Table | AirCharts | RunPlan) -> None:
        for button in (self.join, self.earlier, self.later):
            button.setVisible(body is self.table)
        self._give_room(body)
        self.bodies.setCurrentWidget(body)
        if self.plan is not None:
            self.plan.show_buttons(shown=body is self.plan)
        self.turning.setText(tr("List") if body is self.air else tr("Chart"))
        self.planning.setText(tr("List") if body is self.plan else tr("Plan"))
        self.turning.setVisible(body is self.table or body is self.air)
        self.planning.setVisible(body is not self.air)
        body.take_focus()

    def _give_room(self, body: QWidget) -> None:
        """Only what is looked at says how low the panel may get."""
        for one in (self.air, self.plan):
            if one is None:
                continue
            policy = one.sizePolicy()
            upright = QSizePolicy.Policy.Preferred if one is body else QSizePolicy.Policy.Ignored
            policy.setVerticalPolicy(upright)
            one.setSizePolicy(policy)

    # What happened.

    def _take_in_hand(self, key: str) -> None:
        """Enter on a pallet: the form in hand takes it, else it joins the next run."""
        if not key:
            return
        if self.presenter.asking.scan(key):
            self.go_on()
        else:
            self.presenter.toggle(key)

    def _with_chosen(self, act: Callable[[str], object]) -> None:
        key = self.table.selected_key()
        if key:
            act(key)
            return
        words = tr("Choose a pallet first, or scan it: it joins the next run.")
        self.form.say(Message(Mark.NOTE, words))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.bodies:
            if event.type() == QEvent.Type.Resize:
                self.to_floor.setVisible(self.bodies.width() >= WIDE)
        elif isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
            by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
            key = self.table.selected_key()
            if event.key() == Qt.Key.Key_Space and key:
                self.presenter.toggle(key)
                return True
            if control and by is not None and key:
                self.presenter.shift(key, by)
                return True
        return super().eventFilter(watched, event)

    # What the window asks of a station.

    def take_code(self, code: str) -> bool:
        """A pallet that waits is chosen; the form in hand takes it, else it joins the next run."""
        plain = self.desk.code_of(code)
        if self.desk.letter_of(code) != PALLET or self.presenter.row(plain) is None:
            return False
        if self.presenter.asking.scan(plain):
            self.go_on()
        else:
            self.presenter.join(plain)
        self.table.select(plain)
        return True

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        return {"print": lambda: self.sheets.print_kind("hot-room-log")}
