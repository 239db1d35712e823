"""What else happens on the floor, in the place of the form of a run."""

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.reading_asks import INSTRUMENTS, MEASURE
from honeyledger.desktop.stations.extraction.more_asks import (
    CONTAINERS,
    CUT,
    PRODUCTS,
    RUNS,
    TAKEN,
    VESSELS,
    more_forms,
    tr,
)
from honeyledger.desktop.stations.extraction.settle_asks import CLOSED
from honeyledger.desktop.stations.extraction.stop_asks import LINES
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.domain.moments import house_day
from honeyledger.services.floor_page import FloorPage


class MoreOnTheFloor(QObject):
    """The smaller forms of the floor; a tag scanned is loaded, unless comb is cut."""

    def __init__(self, desk: Desk, first: Panel, turn: Button) -> None:
        super().__init__()
        self._desk = desk
        density = desk.density(Density.FLOOR)
        words = tr("Also on the floor"), tr("What happens")
        self.forms = SecondForms(desk, "floor-more", more_forms, first, words, TAKEN, density)
        self.forms.use_button(turn, tr("Skim, comb…"), tr("To the run"))

    def show_page(self, page: FloorPage) -> None:
        """Offer what there is to choose from."""
        offer = self.forms.offer_choices
        offer(VESSELS, [Choice(one.code, one.name) for one in page.sources])
        offer(INSTRUMENTS, [Choice(one.code, one.name, one.detail) for one in page.instruments])
        offer(LINES, [Choice(one.code, one.name) for one in page.lines])
        offer(CONTAINERS, [Choice(one.code, one.name) for one in page.containers])
        offer(PRODUCTS, [Choice(one.code, one.name) for one in page.products])
        still_open = [one for one in page.runs if one.closed_ms is None]
        offer(RUNS, [Choice(one.code, one.code, one.line_name) for one in still_open])
        closed = [one for one in page.runs if one.closed_ms and one.code not in page.settled]
        offer(CLOSED, [Choice(one.code, one.code, one.line_name) for one in closed])
        today = house_day(self._desk.house.clock(), page.zone)
        self.forms.show_page(page, page.ledger, today)

    def take_code(self, text: str) -> bool:
        """A code was scanned: whether the form takes it; a pallet goes in."""
        if self._desk.letter_of(text) == "G" and self.forms.asking.kind not in (CUT, MEASURE):
            self.forms.show_first()
            return False
        return self.forms.take_code(text)
