"""Retail codes of products onto paper: stickers that a till reads."""

from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.commandline.papers import measured_printer, write_paper
from honeyledger.documents import labels as print_labels
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.stock import Stocks, plain_printer
from honeyledger.domain.units import parse_count
from honeyledger.services.label_log import put_on_record
from honeyledger.services.labelling import house_stocks
from honeyledger.services.retail_codes import retail_code_of


@click.command("retail-codes", cls=Recording)
@click.argument("product", metavar="PRODUCT")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE.pdf", help="The PDF to write."
)
@click.option("--count", default="1", metavar="N", help="How many stickers.")
@click.option("--stock", "stock_name", default="", metavar="NAME", help="The label stock.")
@click.option("--paper", default="", help="a4, letter or roll, where no stock is named.")
@click.option("--dpi", default="0", metavar="DOTS", help="Dots an inch of the printer.")
@click.option("--printer", "measured", default="", metavar="NAME", help="As measured in Setup.")
@click.option("--first-cell", default="1", metavar="N", help="First free label of a sheet begun.")
@click.pass_obj
def retail_codes(
    desk: Desk,
    product: str,
    file: str,
    count: str,
    stock_name: str,
    paper: str,
    dpi: str,
    measured: str,
    first_cell: str,
) -> None:
    """Print the code a till reads off a product's jars (EAN-13, UPC-A or EAN-8) to a PDF.

    That they were printed is put on record, and how many.

    \b
    Example: honeyledger retail-codes "Clover 500 g" --count 24 -o codes.pdf
    Undo: throw the stickers away and reverse the entry: no gram moves by it.
    """
    row = desk.ask(lambda view: retail_code_of(view, product))
    stocks = Stocks.load(resource("labels", "stocks.toml")).with_own(desk.ask(house_stocks))
    stock = stocks.chosen(print_labels.RETAIL_CODE, stock_name, paper)
    dots = parse_count(dpi, "a number of dots an inch", field="dpi")
    begins = parse_count(first_cell, "a label", least=1, field="first_cell")
    times = parse_count(count, "a number of stickers", least=1, field="count")
    printer = measured_printer(measured) if measured else plain_printer(stock, dots)
    faces = Typefaces(resource("fonts"))
    rows = [row] * times
    entries = write_paper(
        desk,
        Path(file),
        lambda: print_labels.retail_codes(rows, stock, printer, faces, first_cell=begins),
        put_on_record(rows),
    )
    kind = print_labels.RETAIL_CODE
    noun = kind if times == 1 else f"{kind}s"
    value = {"file": file, "kind": kind, "labels": times, "stock": stock.name, "entries": entries}
    desk.answer(value, lambda: output.say(f"{times} {noun} on {stock.name}: {file}"))
