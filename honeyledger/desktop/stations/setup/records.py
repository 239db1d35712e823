"""What there is of each kind, as rows: a name, what is known of it, its code or day."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from honeyledger.desktop.language import fact_word
from honeyledger.desktop.models.days import say_day
from honeyledger.desktop.models.frame_facts import ago
from honeyledger.desktop.stations.setup.asks import Ask, Deed, SetupKind, Typing, tr
from honeyledger.desktop.stations.setup.kinds import records_of, shown
from honeyledger.desktop.stations.setup.station_printers import StationPrinters
from honeyledger.documents.stock import Stock
from honeyledger.domain.paper_colour import WHITE
from honeyledger.domain.units import format_number, format_weight
from honeyledger.services.setup_page import Registered, SetupPage

BETWEEN = " · "


@dataclass(frozen=True, slots=True)
class RecordRow:
    """One row of the list of a kind.

    Args:
        key: what tells it from the others.
        name: what it is called.
        facts: what is known of it, in words.
        code: its code, or the day it was last seen to.
    """

    key: str
    name: str
    facts: str = ""
    code: str = ""


def record_rows(
    kind: SetupKind, page: SetupPage, stocks: Sequence[Stock] = (), now_ms: int = 0
) -> tuple[RecordRow, ...]:
    """What there is of a kind.

    Args:
        stocks: the label stocks the program knows.
    """
    match kind.deed:
        case Deed.REGISTER:
            return tuple(_registered(kind, row, page) for row in records_of(kind, page))
        case Deed.CHECK:
            return tuple(_checked(row, page) for row in page.registers.get("equipment", ()))
        case Deed.SUPPLY:
            return tuple(_supplied(page))
        case Deed.COMPUTER:
            return tuple(
                RecordRow(seen.station, seen.station, "", ago(max(0, now_ms - seen.recorded_ms)))
                for seen in page.stations
                if seen.station
            )
        case Deed.PAPERS:
            return tuple(_stock(stock) for stock in stocks)
        case _:
            return ()


def _registered(kind: SetupKind, row: Registered, page: SetupPage) -> RecordRow:
    parts = [_fact(ask, row, page) for ask in kind.asks[1:] if row.record.get(ask.key)]
    has_code = len(row.key) > 1 and row.key[0].isupper() and row.key[-2:-1] == "-"
    return RecordRow(row.key, row.name, BETWEEN.join(parts), row.key if has_code else "")


def _fact(ask: Ask, row: Registered, page: SetupPage) -> str:
    value = row.record.get(ask.key)
    words = ask.short or ask.label.lower()
    if ask.typing is Typing.YES:
        return words
    if ask.typing is Typing.MASS and isinstance(value, int):
        return f"{words} {format_weight(value, page.unit)}"
    text = fact_word(shown(ask, row.record, page)) if ask.offers else shown(ask, row.record, page)
    return f"{words} {text} {ask.unit}".rstrip()


def _checked(row: Registered, page: SetupPage) -> RecordRow:
    last = page.checks.get(row.key)
    if last is None:
        return RecordRow(row.key, row.name, tr("never checked"))
    found = tr("right") if last.result == "ok" else tr("off")
    words = BETWEEN.join(part for part in (found, last.what, last.value) if part)
    return RecordRow(row.key, row.name, words, say_day(last.day))


def _supplied(page: SetupPage) -> Iterable[RecordRow]:
    for row in page.supplies:
        there = tr("{count} pieces").format(count=format_number(row.pieces))
        if row.grams:
            there = format_weight(row.grams, page.unit)
        lot = tr("their lot {lot}").format(lot=row.supplier_lot) if row.supplier_lot else ""
        yield RecordRow(
            row.code, row.name, BETWEEN.join(part for part in (there, lot) if part), row.code
        )


def printer_rows(station: StationPrinters) -> tuple[RecordRow, ...]:
    """The printers this computer has, and those that were measured; each with its correction."""
    measured = station.papers.printers
    rows = []
    for name in dict.fromkeys((*station.names, *measured)):
        printer = measured.get(name)
        facts = [] if name in station.names else [tr("not there now")]
        if printer is None:
            facts.append(tr("not measured"))
        else:
            words = tr("{dots} dots, moved {x} and {y} mm, 100 mm are {across} and {down}")
            facts.append(
                words.format(
                    dots=printer.dots_per_inch,
                    x=f"{printer.shift_x_mm:g}",
                    y=f"{printer.shift_y_mm:g}",
                    across=f"{printer.measured_x_mm:g}",
                    down=f"{printer.measured_y_mm:g}",
                )
            )
        rows.append(RecordRow(name, name, BETWEEN.join(facts), printer.paper if printer else ""))
    return tuple(rows)


def _stock(stock: Stock) -> RecordRow:
    size = f"{stock.width_mm:g} × {stock.height_mm:g} mm"
    colour = () if stock.colour == WHITE else (stock.colour,)
    words = (size, *map(fact_word, (*colour, *stock.kinds)))
    return RecordRow(stock.name, stock.name, BETWEEN.join(words), stock.paper)
