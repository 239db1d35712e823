"""What stands beside the form in hand: the records there are, a sheet drawn, badges to print."""

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.label_print import ChosenLabel, LabelWords
from honeyledger.desktop.stations.setup.asks import Deed, tr
from honeyledger.desktop.stations.setup.form_view import KindForm, KindForms
from honeyledger.desktop.stations.setup.kinds import known
from honeyledger.desktop.stations.setup.paper_kinds import stock_drawn
from honeyledger.desktop.stations.setup.presenter import SetupPresenter
from honeyledger.desktop.stations.setup.records import printer_rows, record_rows
from honeyledger.desktop.stations.setup.records_view import RecordsPanel
from honeyledger.desktop.tokens import Density
from honeyledger.domain.label_stock import SHEET

PEOPLE, STOCK = "operator", "stock"


class Beside:
    """The panel at the right of the set-up.

    Args:
        forms: the forms by kind.
    """

    def __init__(
        self,
        desk: Desk,
        presenter: SetupPresenter,
        forms: KindForms,
        asks: StationAsks,
        density: Density,
    ) -> None:
        self._desk, self._presenter, self._forms = desk, presenter, forms
        self.panel = RecordsPanel(density)
        self.badges = ChosenLabel(desk, asks.told, _badge_words())
        self.panel.badge.clicked.connect(lambda: self.badges.write(self._chosen()))
        self.panel.every_badge.clicked.connect(lambda: self.badges.write(self.panel.codes()))

    def show_records(self) -> None:
        """What there is of the kind in hand."""
        page, kind = self._presenter.page, self._presenter.kind
        if page is None:
            return
        now_ms = self._desk.house.clock()
        rows = record_rows(kind, page, self._presenter.stocks, now_ms)
        if kind.deed is Deed.PRINTER:
            rows = printer_rows(self._presenter.station)
        is_this = kind.deed is Deed.COMPUTER
        self.panel.show_rows(tr("Computers lately") if is_this else kind.title, rows)
        self.panel.badges.setVisible(kind.register == PEOPLE and bool(rows))

    def draw(self, form: KindForm) -> None:
        """The sheet as it is typed; other sheets than the usual are asked for their size."""
        is_stock = form.kind.key == STOCK
        if is_stock and form.values()["paper"] == SHEET and not form.is_whole:
            form.show_later(True)
        self.panel.draw_stock(stock_drawn(form.values()) if is_stock else None)

    def print_in_hand(self) -> bool:
        """Badges of people, or the calibration page again; whether either was meant."""
        if self._presenter.kind.register == PEOPLE:
            self.badges.open(self._chosen())
            return True
        page = self._presenter.calibrated
        if page is not None:
            self._desk.open_paper(page)
        return page is not None

    def _chosen(self) -> list[str]:
        """The person whose row is chosen, else whose record the form shows."""
        key = self.panel.records.selected_key()
        page, kind = self._presenter.page, self._presenter.kind
        if not key and page is not None:
            key = known(kind, self._forms[kind.key].values().get("name", ""), page).key
        return [key] if key else []


def _badge_words() -> LabelWords:
    return LabelWords(
        choose=tr("Choose a person in the list: that badge is printed then."),
        lead=tr("The badge {code}"),
        many=tr("{n} badges"),
        failed=tr("Nothing printed."),
    )
