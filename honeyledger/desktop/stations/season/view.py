"""The season's page: the answer, what is looked at as a chart, and its figures beside it."""

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.season.plan_view import LOW, PLAN, Above, PlanView
from honeyledger.desktop.stations.season.presenter import SeasonPresenter
from honeyledger.desktop.stations.season.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, Pieced
from honeyledger.desktop.widgets.chart import ChartView
from honeyledger.desktop.widgets.chart_table import ChartTable, follow_each_other
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.chooser import Chooser
from honeyledger.desktop.widgets.figures import Answer, KeyFigures
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.domain.refusals import Refusal
from honeyledger.services.season_page import SeasonPage

# Below this width the bar has no room for what a key does as well.
NARROW = 760
_ALL_THE_ROOM = 100


class SeasonView(Pieced, QObject):
    """The page of the season. See `StationView`."""

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        QObject.__init__(self)
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        self.sheets = Sheets(desk, lambda message: self.slot.show_messages([message]), opens=True)
        self.presenter = SeasonPresenter(desk)
        self.presenter.is_seen = self.widget.isVisible
        self.answer = Answer()
        self._choices = [
            *(Choice(key, title) for key, title in self._groups()),
            Choice(PLAN, tr("Plan")),
        ]
        self.plan: PlanView | None = None
        self._is_plan_meant = False
        self.chooser = Chooser(self._choices)
        self.chooser.set_key(self._group_of(self.presenter.key))
        self.above = Above(self.answer, self.chooser)
        yield
        self.drawn = self._made_chart()
        yield
        self.listed = self._made_table()
        yield
        self.spread = Spread(
            [Part(self.drawn, tr("Chart"), 8, 8), Part(self.listed, tr("Figures"), 4, 8)],
            above=self.above,
        )
        self.spread.fill(self.widget)
        follow_each_other(self.chart, self.table)
        self.widget.installEventFilter(self)
        self.chooser.installEventFilter(self)  # it has its width later than the page
        self._connect()
        self.answer.show_answer(tr("Season"), tr("Reading the season"))

    def _made_chart(self) -> Panel:
        panel = Panel(density=Density.DESK)
        self.parts = {key: self._made_parts(key, panel) for key, _ in self._groups()}
        self.chart = ChartView()
        panel.set_body(self.chart)
        bar = panel.add_bar()
        self.before = bar.add_secondary("")
        self.after = bar.add_secondary("")
        self.print_it = bar.add_secondary(tr("Print"), icon="print")
        self.print_all = bar.add_secondary(tr("Print all"))
        self.slot = MessageSlot(density=Density.DESK, tall=True, ground="well")
        bar.set_side(self.slot, _ALL_THE_ROOM)
        return panel

    def _made_table(self) -> Panel:
        panel = Panel(tr("Figures"), density=Density.DESK)
        self.table = ChartTable()
        self.figures = KeyFigures(density=Density.DESK)
        self.table.set_above_foot(self.figures)
        panel.set_body(self.table)
        self.book = panel.add_bar().add_secondary(tr("Season book by yard"), icon="print")
        self.book.clicked.connect(self.print_book)
        return panel

    def _connect(self) -> None:
        presenter = self.presenter
        presenter.shown.connect(self._show)
        presenter.printed.connect(self._printed)
        presenter.failed.connect(self._failed)
        self.chooser.chosen.connect(self._chosen)
        self.chooser.second_chosen.connect(presenter.choose)
        self.before.clicked.connect(lambda: presenter.go(-1))
        self.after.clicked.connect(lambda: presenter.go(1))
        for button in (self.print_it, self.chooser.print_it):
            button.clicked.connect(lambda: presenter.print(picture=False))
        for button in (self.print_all, self.chooser.print_all):
            button.clicked.connect(presenter.print_all)
        self.chart.opened.connect(self.asks.card)
        self.table.opened.connect(lambda _key: self._with_opens(self.asks.card.emit))

    # Looks that are chosen together.

    def _groups(self) -> list[tuple[str, str]]:
        """The first look of each group, and what the group is called."""
        firsts: dict[str, str] = {}
        for look in self.presenter.looks.values():
            firsts.setdefault(look.group or look.title, look.key)
        return [(key, title) for title, key in firsts.items()]

    def _group_of(self, key: str) -> str:
        """The key by which a look's group is chosen."""
        look = self.presenter.looks[key]
        firsts = {title: first for first, title in self._groups()}
        return firsts[look.group or look.title]

    def _made_parts(self, first: str, panel: Panel) -> Chooser | None:
        """Buttons for the looks of a group; none where it is one by itself."""
        looks = [
            look for look in self.presenter.looks.values() if self._group_of(look.key) == first
        ]
        if len(looks) < 2:
            return None
        choices = [Choice(look.key, look.title) for look in looks]
        made = Chooser(choices, tr("Of it"), prints=False)
        made.setContentsMargins(0, tokens.STEPS[2], 0, tokens.STEPS[1])
        made.chosen.connect(self.presenter.choose)
        made.hide()
        panel.add_part(made, padded=True)
        return made

    def _show_parts(self, key: str) -> None:
        group = self._group_of(key)
        for first, parts in self.parts.items():
            if parts is not None:
                parts.setVisible(first == group and self.chooser.is_wide())
                parts.set_key(key)
        shown = self.parts[group]
        self.chooser.offer_second(shown.choices if shown is not None else (), key)

    # The plan has a page of its own in the same place, made when it is first asked for.

    def _chosen(self, key: str) -> None:
        self._is_plan_meant = key == PLAN
        if not self._is_plan_meant:
            self.presenter.choose(key)
        elif self.plan is not None:
            self._show_plan(self.plan)
        else:
            # It has thirty fields: made in this turn, it is shown in the next.
            made = self.plan = self._made_plan()
            self._desk.jobs.turns.add(lambda: self._show_plan(made))

    def _made_plan(self) -> PlanView:
        made = PlanView(self._desk, self._choices)
        made.hide()
        made.left.connect(self._leave_plan)
        layout = self.widget.layout()
        assert layout is not None
        layout.addWidget(made)
        return made

    def _show_plan(self, plan: PlanView) -> None:
        if self._is_plan_meant:
            self.spread.hide()
            plan.show()
            plan.begin()

    def _leave_plan(self, key: str) -> None:
        assert self.plan is not None
        self.plan.hide()
        self.spread.show()
        self.presenter.choose(key)
        self.chooser.set_key(self._group_of(self.presenter.key))
        self.begin()

    def _planned(self) -> PlanView | None:
        """The plan, where it is looked at."""
        return self.plan if self.plan is not None and not self.plan.isHidden() else None

    # What is shown.

    def _show(self, page: SeasonPage) -> None:
        look = self.presenter.look
        chart = look.chart(page)
        title = tr("Season {season}: {title}").format(season=page.season, title=look.title)
        self.answer.show_answer(title, look.answer(page))
        self.chooser.set_key(self._group_of(look.key))
        self._show_parts(look.key)
        self.chart.show_chart(chart)
        self.listed.set_heading(chart.title)
        self.table.show_chart(chart)
        self.figures.show_figures("", look.figures(page))
        self.slot.show_messages(look.notes(page))
        self.slot.set_next_step(tr("Ctrl+P prints it, Ctrl+Shift+P saves it as a picture."))
        for button, step in ((self.before, -1), (self.after, 1)):
            season = self.presenter.neighbour(step)
            button.setText(tr("Season {season}").format(season=season) if season else "")
            button.setVisible(bool(season))
        self._fit_bar()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched in (self.widget, self.chooser) and isinstance(event, QResizeEvent):
            self._fit_bar()
        return super().eventFilter(watched, event)

    def _fit_bar(self) -> None:
        """In a narrow window one prints above the chart; in a low one the bar is for warnings."""
        has_room = self.widget.width() >= NARROW and self.chooser.is_wide()
        self.print_it.setVisible(has_room)
        are_several = len(self.presenter.together()) > 1
        self.print_all.setVisible(has_room and are_several)
        self.chooser.offer_all(all_of_it=are_several)
        self._show_parts(self.presenter.key)
        low = self.widget.height() < LOW
        self.above.set_low(low)
        shown = self.slot.shown()
        warns = shown is not None and shown.mark is Mark.WARNING
        _show_bar(self.drawn, not low or warns)
        _show_bar(self.listed, has_room and not low)

    def print_book(self) -> None:
        """The season looked at, yard by yard."""
        if self.presenter.page is not None:
            self.sheets.print_kind("season-book", str(self.presenter.page.season))

    def _printed(self, what: Paper | Refusal) -> None:
        message = paper_message(what, tr("The season"), tr("Not printed."), tr("is in {file}."))
        self.slot.show_messages([message])
        if isinstance(what, Paper) and not what.printer and what.to_ask is None:
            self._desk.open_paper(what.file)

    def _failed(self, refusal: Refusal) -> None:
        self.slot.show_messages([Message(Mark.WARNING, tr("Not read."), refusal_words(refusal))])
        self._fit_bar()

    def _with_opens(self, ask: object) -> None:
        """Act on the code of the item in hand, where it has one."""
        chart = self.chart.chart()
        at = chart.place_of(self.chart.current() or self.table.selected_key())
        if at is not None and chart.items[at].opens and callable(ask):
            ask(chart.items[at].opens)

    # What the window asks of a station.

    def begin(self) -> None:
        """Ask what is there, and put the keyboard on the chart."""
        self.presenter.open()
        if (plan := self._planned()) is not None:
            plan.begin()
            return
        if self.spread.is_tabbed() and self.drawn.isHidden():
            self.table.take_focus()
        else:
            self.chart.setFocus()

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, action: str) -> bool:
        """Print what is looked at, save its picture; open the card, or the trace, of an item."""
        if (plan := self._planned()) is not None:
            return plan.handle(action)
        doing = {
            "print": lambda: self.presenter.print(picture=False),
            "picture": lambda: self.presenter.print(picture=True),
            "card": lambda: self._with_opens(self.asks.card.emit),
            "trace-this": lambda: self._with_opens(self.asks.trace.emit),
        }.get(action)
        if doing is not None:
            doing()
        return doing is not None


def _show_bar(panel: Panel, shown: bool) -> None:
    if panel.bar is not None:
        panel.bar.setVisible(shown)
