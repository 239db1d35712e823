"""What is done with jars behind the filler, in the place of the form at the filler."""

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.models.reading_asks import INSTRUMENTS, MEASURE, READ
from honeyledger.desktop.stations.bottling.after_asks import (
    LABEL,
    LOTS,
    PRODUCTS,
    after_forms,
)
from honeyledger.desktop.stations.bottling.chunk_asks import CHUNK, COMB, FEEDS
from honeyledger.desktop.stations.bottling.rows import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal
from honeyledger.services.bottling_page import BottlingPage

# What each form takes of a scan: jars and comb; cases and pallets; packaging.
JARS, PACKS, PACKAGING = "JK", "CL", "A"
# Drums and vessels that liquid honey comes from.
_LIQUID = "DPE"
_TAKEN = {
    "label": JARS,
    "keep": JARS,
    MEASURE: READ,
    "pack": JARS + PACKS,
    "unpack": PACKS,
    CHUNK: COMB,
}


class AfterFiller:
    """The forms behind the filler, and what a scan means to them."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.asking = Asking(desk, "behind-filler", after_forms())
        density = desk.density(Density.FLOOR)
        self.form = AskingPanel(
            self.asking, tr("Behind the filler"), tr("What is done"), density, _line_label
        )
        self.panel = self.form.panel

    def show_page(self, page: BottlingPage) -> None:
        """Offer what there is to choose from."""
        today = house_day(self._desk.house.clock(), page.zone)
        self.asking.show_page(page, page.ledger, today)
        self.form.set_unit(page.unit)
        self.form.offer(LOTS, [Choice(row.code, row.code, row.product) for row in page.jars])
        self.form.offer(
            INSTRUMENTS, [Choice(one.code, one.name, one.detail) for one in page.instruments]
        )
        nets = [Choice(row.key, row.name, f"{row.net_g} g") for row in page.products]
        self.form.offer(PRODUCTS, nets)
        self.form.offer(FEEDS, [Choice(row.code, row.name, row.code) for row in page.feeds])

    def take_code(self, text: str) -> bool:
        """A code was scanned: whether the form in hand, or the one it is for, takes it."""
        try:
            code = parse_code(text, self._desk.prefix)
        except Refusal:
            return False
        lot = code.lot if isinstance(code, JarCode) else code
        asking = self.asking
        if lot.letter == PACKAGING and asking.kind == LABEL:
            typed = asking.now()
            codes = dict.fromkeys((*typed.codes("packaging"), str(lot)))
            asking.fill(typed.with_value("packaging", ", ".join(codes)))
        elif asking.kind == CHUNK and lot.letter in _LIQUID:
            asking.fill(asking.now().with_value("source", str(lot)))
        elif lot.letter in _TAKEN[asking.kind]:
            asking.scan(str(lot))
        else:
            return False
        self.form.begin()
        return True


def _line_label(_at: int, code: str) -> str:
    """A line is of a jar lot, or of a case, which has no number of jars to say."""
    return code
