"""What comes up less often in the drum room, in the place of its first form."""

from collections.abc import Sequence

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.models.reading_asks import INSTRUMENTS
from honeyledger.desktop.models.room_asks import ROOMS
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.drums.stock_asks import DRUMS, TAKEN, WALK, YARDS, stock_forms
from honeyledger.desktop.stations.drums.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.services.drums_page import DrumsPage


class StockForms(SecondForms):
    """The forms, and what they choose from."""

    def __init__(self, desk: Desk, first: Panel, density: Density) -> None:
        words = tr("The stock of drums"), tr("What happened")
        super().__init__(desk, "drum-stock", stock_forms, first, words, TAKEN, density)
        self.sheets = Sheets(desk, lambda message: self.form.say(message))

    def furnish(self, asking: Asking, form: AskingPanel) -> None:
        """A button for the list of a row that is walked, or of all that there is."""
        assert form.panel.bar is not None
        self.list = form.panel.bar.add_secondary(tr("List"), icon="print")
        self.list.clicked.connect(self._print)
        form.chosen.connect(self._name_list)
        self._name_list(asking.kind)

    def _name_list(self, kind: str) -> None:
        walked = tr("Print what should stand there")
        self.list.setAccessibleName(walked if kind == WALK else tr("Print the stock list"))

    def print_list(self) -> bool:
        """The list of a row that is walked, printed or opened again: whether one is walked."""
        if not self.is_shown() or self.asking.kind != WALK:
            return False
        if not self.sheets.open_printed():
            self._print()
        return True

    def _print(self) -> None:
        """What should stand in the room and the row that are walked; else all that there is."""
        if self.asking.kind != WALK:
            self.sheets.print_kind("stock-list")
            return
        typed = self.asking.now()
        self.sheets.print_standing(typed.text("room"), typed.text("row"))

    def offer(self, page: DrumsPage, drums: Sequence[Choice]) -> None:
        """Offer what there is to choose from."""
        self.offer_choices(DRUMS, drums)
        self.offer_choices(
            INSTRUMENTS, [Choice(one.code, one.name, one.detail) for one in page.instruments]
        )
        self.offer_choices(ROOMS, [Choice(row.name, row.name) for row in page.rooms])
        self.offer_choices(YARDS, [Choice(row.code, row.name) for row in page.yards])
        self.show_page(page, page.ledger, page.today)
