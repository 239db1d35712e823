"""What this station knows of its printers: asked of the system and its file, in a lane."""

import importlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.printing import Paper, into_file
from honeyledger.desktop.stations.setup.asks import tr
from honeyledger.desktop.stations.setup.printer_deeds import printer_said
from honeyledger.documents.printers import StationPapers, write_printers
from honeyledger.documents.stock import Printer, Stock, Stocks
from honeyledger.services.setup_page import SetupPage

_DRAWING, _SENDING = "honeyledger.desktop.drawing", "honeyledger.desktop.sending"


@dataclass(slots=True)
class StationPrinters:
    """This station's printers.

    Args:
        papers: what is kept of them.
        names: those the system has now.
        is_asked: whether the system was asked for them.
        shipped: the label stocks that come with the program.
    """

    desk: Desk
    papers: StationPapers = field(default_factory=StationPapers)
    names: tuple[str, ...] = ()
    is_asked: bool = False
    shipped: Stocks = field(default_factory=lambda: Stocks({}))

    def ask(self, then: Callable[[Outcome[object]], None]) -> None:
        """Ask the file, and for the stocks that are shipped."""
        desk = self.desk

        def task() -> tuple[Stocks, StationPapers]:
            shipped = Stocks.load(desk.assets / "labels" / "stocks.toml")
            return shipped, desk.station_papers()

        def answered(outcome: Outcome[tuple[Stocks, StationPapers]]) -> None:
            if outcome.value is not None:
                self.shipped, self.papers = outcome.value
            then(Outcome(outcome.value, outcome.error))

        desk.jobs.work(lambda _report: task(), answered)

    def ask_names(self, then: Callable[[Outcome[object]], None]) -> None:
        """Ask the system for its printers, once: what knows of them takes a while to load."""
        if self.is_asked:
            return
        self.is_asked = True

        def task() -> tuple[str, ...]:
            names: tuple[str, ...] = importlib.import_module(_SENDING).printers()
            return names

        def answered(outcome: Outcome[tuple[str, ...]]) -> None:
            self.names = outcome.value or ()
            then(Outcome(outcome.value, outcome.error))

        self.desk.jobs.work(lambda _report: task(), answered)

    def stocks(self, page: SetupPage | None) -> Stocks:
        """The stocks shipped and the house's own."""
        rows = page.registers.get("stock", ()) if page is not None else ()
        return self.shipped.with_own({row.name: row.record for row in rows})

    def keep(self, papers: StationPapers, then: Callable[[Outcome[object]], None]) -> None:
        """Keep this from now on."""
        file = self.desk.printers

        def task() -> None:
            if file is not None:
                write_printers(papers, file)

        def written(outcome: Outcome[None]) -> None:
            if outcome.error is None:
                self.papers = papers
            then(Outcome(None, outcome.error))

        self.desk.jobs.work(lambda _report: task(), written)

    def calibrate(
        self, typed: Mapping[str, str], page: SetupPage, then: Callable[[Outcome[Paper]], None]
    ) -> None:
        """Print the calibration page as the form corrects it, and write it as a PDF.

        Raises:
            Refusal: a measure cannot be read or is no fine correction, or no stock is on the
                paper the printer has.
        """
        printer = printer_said(typed)
        stock = self._stock_of(printer, self.stocks(page))
        desk, is_there = self.desk, printer.name in self.names
        name = tr("Calibration {printer}").format(printer=_file_name(printer.name))

        def task() -> Paper:
            drawing = importlib.import_module(_DRAWING)
            data = drawing.alignment_pdf(desk.assets, stock, printer)
            file = into_file(desk.papers / f"{name}.pdf", data)
            if is_there:
                sending, dots = importlib.import_module(_SENDING), printer.dots_per_inch
                page = sending.Sheets(
                    name, stock.name, stock.page_mm, dots, data, goes_to=printer.name
                )
                sending.send(page)
            return Paper(file, printer.name if is_there else "")

        desk.jobs.work(lambda _report: task(), then)

    def _stock_of(self, printer: Printer, stocks: Stocks) -> Stock:
        """The stock that goes to this printer, else the first on the paper it has."""
        for way in self.papers.ways.values():
            if way.printer == printer.name and way.stock in stocks.names:
                chosen = stocks.named(way.stock)
                if chosen.paper == printer.paper:
                    return chosen
        return stocks.on_paper(printer.paper)


def _file_name(name: str) -> str:
    """A printer's name as a file may have it."""
    return "".join(sign if sign.isalnum() or sign in " -._" else "_" for sign in name)
