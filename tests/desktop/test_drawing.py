"""Each kind of paper on its own stock, in the house's unit; and that the window starts without."""

import subprocess
import sys

import pytest
from pypdfium2 import PdfDocument

from honeyledger.assets import resource
from honeyledger.desktop.drawing import (
    Plan,
    first_label,
    label_pdf,
    pad_pdf,
    paper_rows,
    sheets_of,
    worth_knowing,
)
from honeyledger.documents.stock import Printer, Stock, plain_printer, stock_of
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.labelling import PaperRow, label_rows
from honeyledger.services.papers import Serials
from honeyledger.services.store import View
from tests.support import printing
from tests.support.houses import BuiltHouse


def _words(data: bytes) -> str:
    page = PdfDocument(data)[0]
    return str(page.get_textpage().get_text_bounded())


def _rows(house: BuiltHouse, code: str) -> list[PaperRow]:
    return house.house.ask(lambda view: list(label_rows(view, code)))


def test_each_kind_of_label_is_printed_on_its_own_stock() -> None:
    house = BuiltHouse()
    yard = house.yard("Mill Lane")
    _, tag = house.pull(yard, 400_000, count=20)
    tank = house.vessel("Tank 1")
    house.load(yard, 400_000, tank)
    drum = house.drum(tank, 200_000)
    for code, word in ((tag, "Received"), (drum, "Honey for further"), (yard, "Mill Lane")):
        assert word in _words(label_pdf(_rows(house, code), resource(), "kg"))


def test_weights_are_printed_in_the_unit_of_the_house() -> None:
    house = BuiltHouse()
    tank = house.vessel("Tank 1")
    house.load(house.yard("Mill Lane"), 400_000, tank)
    drum = house.drum(tank, 200_000)
    assert "440.9 lb" in _words(label_pdf(_rows(house, drum), resource(), "lb"))


def test_nothing_to_print_is_refused() -> None:
    with pytest.raises(Refusal, match="There is nothing to print"):
        label_pdf([], resource(), "kg")


def test_how_many_labels_are_drawn_is_told_now_and_then() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.do(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]
    rows = house.house.ask(lambda view: list(label_rows(view, code, Serials(1, 60))))
    told: list[tuple[int, int]] = []
    label_pdf(rows, resource(), "kg", lambda done, of: told.append((done, of)))
    assert told == [(0, 60), (25, 60), (50, 60)]


def test_the_window_s_start_loads_nothing_that_draws_papers_or_simulates() -> None:
    loaded = "import sys, honeyledger.desktop.app, honeyledger.desktop.stations.dock.view as _; "
    loaded += "import honeyledger.desktop.stations.season.view as _; "
    loaded += (
        "print(*(one in sys.modules for one in ('reportlab', 'qrcode', 'simpy', 'pypdfium2')))"
    )
    said = subprocess.run(
        [sys.executable, "-c", loaded], capture_output=True, check=True, text=True
    )
    assert said.stdout.split() == ["False"] * 4


def test_a_sheet_is_moved_as_its_printer_needs() -> None:
    pdf = pad_pdf("Hill House", resource(), "kg")
    assert sheets_of("Pad", pdf, "kg", None) == ("Pad", "a4", (210, 297), 300, pdf, (0, 0))
    measured = Printer("Office", "a4", 600, 0.4, -0.3)
    assert sheets_of("Pad", pdf, "lb", measured)[1:] == (
        *("letter", (215.9, 279.4), 600, pdf, (0.4, -0.3)),
    )


def test_what_is_worth_knowing_of_a_stock_and_a_front_is_told_before_it_is_printed() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.do(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]

    def told(form: str, stock: Stock) -> list[str]:
        def ask(view: View) -> tuple[str, ...]:
            rows = paper_rows(view, code, Serials(1, 2, form))
            return worth_knowing(view, rows, Plan(form, stock, plain_printer(stock)), resource())

        return [one.partition(" on ")[0] for one in house.house.ask(ask)]

    seal = stock_of("Own", {"paper": "roll", "width_um": 70_000, "height_um": 20_000})
    assert told("lid seal", seal) == []
    front = printing.stocks().named("roll-70x40")
    assert told("jar front", front) == ["The front has no code: it is"]


def test_a_jar_s_seal_is_shown_as_it_prints_on_the_stock_for_it() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.do(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]
    serials = Serials(3, 3, "lid seal")
    rows = house.house.ask(lambda view: paper_rows(view, code, serials))
    seen = first_label(rows, resource(), {})
    assert (seen.count, seen.name) == (1, rows[0].code)
    words = _words(seen.pdf)
    assert "Sealed" in words
    assert "500 g" not in words
