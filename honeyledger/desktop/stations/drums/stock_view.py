"""What comes up less often in the drum room, in the place of its first form."""

from collections.abc import Sequence

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.room_asks import ROOMS
from honeyledger.desktop.stations.drums.stock_asks import DRUMS, TAKEN, YARDS, stock_forms
from honeyledger.desktop.stations.drums.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.services.drums_page import DrumsPage


class StockForms(SecondForms):
    """The forms, and what they choose from."""

    def __init__(self, desk: Desk, first: Panel, density: Density) -> None:
        words = tr("The stock of drums"), tr("What happened")
        super().__init__(desk, "drum-stock", stock_forms(), first, words, TAKEN, density)

    def offer(self, page: DrumsPage, drums: Sequence[Choice]) -> None:
        """Offer what there is to choose from."""
        self.form.offer(DRUMS, drums)
        self.form.offer(ROOMS, [Choice(row.name, row.name) for row in page.rooms])
        self.form.offer(YARDS, [Choice(row.code, row.name) for row in page.yards])
        self.show_page(page, page.ledger, page.today)
