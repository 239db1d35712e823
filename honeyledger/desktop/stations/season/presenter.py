"""What the season's page knows: the season in hand, what is looked at, and both on paper."""

import importlib
from collections.abc import Callable
from pathlib import Path
from typing import cast

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked_page import NOT_SHOWN
from honeyledger.desktop.models.charts import column_key, paper_columns
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.paper import Paper, cells_of
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.page_print import PagesOnPaper, picture_page, print_pages
from honeyledger.desktop.printing import Paper as OnPaper
from honeyledger.desktop.sheets import print_report
from honeyledger.desktop.stations.season.looks import PULLING, TO_DO, Look, looks
from honeyledger.desktop.stations.season.words import tr
from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.checks import shipped_checks
from honeyledger.services.day_tables import day_report
from honeyledger.services.labelling import HEAD_DIGITS
from honeyledger.services.printed import DAY_SHEET, SEASON_CHARTS, TRUCK_SHEET
from honeyledger.services.pulling_tables import truck_day, truck_sheet
from honeyledger.services.report_tables import Report as ReportRows
from honeyledger.services.routing import Router
from honeyledger.services.season_more import with_pulls, with_sheet
from honeyledger.services.season_page import SeasonPage, season_page
from honeyledger.services.store import View

_ROUTES = "honeyledger.optimisation.routes"  # loaded where a round is asked: it takes a while


def _router() -> Router:
    return cast(Router, importlib.import_module(_ROUTES).SolverRouter())


class SeasonPresenter(QObject):
    """A season of the house, looked at in one of several ways.

    Signals:
        shown: a `SeasonPage` has come, or another look was chosen.
        failed: a `Refusal`: the season could not be asked for; the one before stays.
        printed: the paper that was written, or the `Refusal` it ended with.
    """

    shown = Signal(object)
    failed = Signal(object)
    printed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: SeasonPage | None = None
        self.season = 0
        self.looks = {look.key: look for look in looks()}
        self.key = next(iter(self.looks))
        self._is_stale = True
        self.is_seen: Callable[[], bool] = lambda: True
        desk.refresh.watch(EVERYTHING, self._changed)

    @property
    def look(self) -> Look:
        """What is looked at."""
        return self.looks[self.key]

    # The season.

    def _changed(self) -> None:
        """Something was recorded; a page nobody sees asks when it is opened."""
        self._is_stale = True
        if self.is_seen():
            self.ask()

    def open(self) -> None:
        """Somebody looks at it from now on: ask, unless it is still true."""
        if self._is_stale:
            self.ask()

    def ask(self) -> None:
        """Ask for the season as it is now, with what the look in hand needs besides."""
        self._is_stale = False
        house, season, key = self._desk.house, self.season, self.key
        now_ms, checks = house.clock(), self._desk.assets / "checks"

        def question(view: View) -> SeasonPage:
            page = season_page(view, now_ms, season)
            if key == PULLING:
                return with_pulls(view, page, _router(), now_ms)
            return with_sheet(view, page, shipped_checks(checks), now_ms) if key == TO_DO else page

        self._desk.jobs.read(lambda: house.ask(question), self._answered, about=(self, "page"))

    def _answered(self, outcome: Outcome[SeasonPage]) -> None:
        if outcome.value is None:
            self._is_stale = True
            why = type(outcome.error).__name__
            self.failed.emit(outcome.refusal or Refusal(NOT_SHOWN, why=why))
            return
        self.page = outcome.value
        self._desk.unit = outcome.value.unit
        self.shown.emit(outcome.value)

    def neighbour(self, step: int) -> int:
        """The season before (-1) or after (1) the one shown; 0 where there is none."""
        if self.page is None:
            return 0
        seasons = sorted(self.page.seasons)
        at = seasons.index(self.page.season) if self.page.season in seasons else -1
        return seasons[at + step] if at >= 0 and 0 <= at + step < len(seasons) else 0

    def go(self, step: int) -> None:
        """Show the season before or after."""
        season = self.neighbour(step)
        if season and self.page is not None:
            self.season = 0 if season == self.page.today.year else season
            self.ask()

    def choose(self, key: str) -> None:
        """Look at something else of the same season."""
        if key in self.looks and key != self.key:
            self.key = key
            if self.page is not None:
                self.shown.emit(self.page)
                if self._lacks(self.page):
                    self.ask()

    def _lacks(self, page: SeasonPage) -> bool:
        """Whether the look needs what nobody asked for yet."""
        if self.key == PULLING:
            return page.is_now and page.pulling is None
        return self.key == TO_DO and page.today_sheet is None

    # On paper.

    def together(self) -> list[Look]:
        """The looks that are chosen together with the one in hand, itself among them."""
        group = self.look.group
        return [one for one in self.looks.values() if one.group == group] if group else [self.look]

    def paper(self, page: SeasonPage, look: Look) -> Paper:
        """A look as it is printed: its sentence, its chart, all of its figures."""
        chart = look.chart(page)
        now = format_moment(moment_at(self._desk.house.clock(), page.zone))
        head = f"{page.entries} {page.digest[:HEAD_DIGITS].upper()}"
        foot = tr("{house} · head {head} · printed {now}")
        lead, *figures = chart.totals or ("",)
        totals = [
            (column_key(at, row), Total(words, estimated=row.estimated))
            for (at, row), words in zip(enumerate(chart.heads[1:], 1), figures, strict=False)
            if words
        ]
        columns = paper_columns(chart)
        return Paper(
            (chart.title, look.answer(page)),
            None,
            columns,
            cells_of(columns, chart.items),
            lead,
            tuple(totals),
            foot.format(house=page.house, head=head, now=now),
            chart=chart if chart.items else None,
        )

    def print(self, *, picture: bool) -> None:
        """Write it among the papers, as pages or as one picture."""
        page = self.page
        if page is None:
            return
        report = None if picture else self.report(page)
        if report is not None:
            kind, of = self._named(page)
            name = f"{self.key}-{page.today.isoformat()}-{page.entries}"
            print_report(self._desk, report, (name, self.look.title, kind, of), self._sheet)
            return
        paper = self.paper(page, self.look)
        # The head's number tells two prints of the same thing apart.
        name = f"season-{page.season}-{self.key}-{page.entries}"
        if picture:
            picture_page(self._desk, name, paper, self._printed)
            return
        of = f"{page.season} {self.key}"
        pages = PagesOnPaper(name, SEASON_CHARTS, of, [paper])
        print_pages(self._desk, pages, self._printed)

    def print_all(self) -> None:
        """Write all that is chosen together among the papers, as one."""
        page = self.page
        if page is None:
            return
        looks = self.together()
        papers = [self.paper(page, look) for look in looks]
        all_of = f"all {looks[0].key}"
        name = f"season-{page.season}-{all_of.replace(' ', '-')}-{page.entries}"
        pages = PagesOnPaper(name, SEASON_CHARTS, f"{page.season} {all_of}", papers)
        print_pages(self._desk, pages, self._printed)

    def report(self, page: SeasonPage) -> ReportRows | None:
        """The sheet that is printed instead of the chart: to drive with, or for the wall."""
        if self.key == PULLING and page.pulling is not None:
            return truck_sheet(page.pulling)
        if self.key == TO_DO and page.today_sheet is not None:
            return day_report(page.today_sheet)
        return None

    def _named(self, page: SeasonPage) -> tuple[str, str]:
        """The word and the day by which a sheet's prints are on record."""
        if self.key == PULLING and page.pulling is not None:
            return TRUCK_SHEET, truck_day(page.pulling)
        return DAY_SHEET, page.today.isoformat()

    def _sheet(self, outcome: Outcome[OnPaper]) -> None:
        self.printed.emit(outcome.value or refusal_of(outcome))

    def _printed(self, outcome: Outcome[Path]) -> None:
        file = outcome.value
        self.printed.emit(refusal_of(outcome) if file is None else OnPaper(file))
