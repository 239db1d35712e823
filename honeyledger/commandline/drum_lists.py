"""A list of drums: on the screen, as a table for a spreadsheet, or on paper."""

from collections.abc import Sequence
from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing
from honeyledger.commandline.output import Column, say, table
from honeyledger.commandline.papers import write_paper, write_table
from honeyledger.commandline.report import parse_copies
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.documents.fonts import Typefaces
from honeyledger.domain.units import format_colour, format_moisture
from honeyledger.exchange.drum_table import drum_table
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.drum_list import DrumList, DrumRow
from honeyledger.services.drum_list import drum_list as listed
from honeyledger.services.printed import DRUM_LIST, as_printed


@click.command("drum-list", cls=Printing)
@click.argument("codes", nargs=-1, metavar="[NOTE | DRUM...]")
@click.option("-o", "--output", "file", metavar="FILE", help="Write it: FILE.pdf or FILE.csv.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def drum_list(desk: Desk, codes: Sequence[str], file: str | None, paper: str, copies: str) -> None:
    """List drums with gross, tare, net, moisture, colour and seal.

    Of a dispatch note, of drums by their codes, or every drum in the house. That it was printed
    is put on record: the second print of a list says that it is reprint 1.

    \b
    Example: honeyledger drum-list N26-0012-S -o drums.pdf
    """
    drums = desk.ask(lambda view: listed(view, codes))
    if file is None:
        desk.answer(_list_json(drums), lambda: _show_list(desk, drums))
        return
    path, count = Path(file), len(drums.rows)
    many = parse_copies(copies)
    value: dict[str, object] = {"file": file, "drums": count}
    if path.suffix.casefold() == ".csv":
        write_table(path, drum_table(drums, desk.unit))
    else:
        sheet = paper or usual_paper(desk.unit)
        faces = Typefaces(resource("fonts"))
        now_ms, by = desk.house.clock(), desk.said().operator
        shown = desk.ask(lambda view: as_printed(view, drums, DRUM_LIST, drums.of, now_ms, by))
        entries = write_paper(
            desk,
            path,
            lambda: drum_list_pdf(shown, faces, paper=sheet, unit=desk.unit, copies=many),
            [Printed(DRUM_LIST, drums.of, many)],
        )
        value |= {"copies": many, "reprint": shown.again, "entries": entries}
    said = f"{count} drum{'s' if count != 1 else ''}: {file}"
    desk.answer(value, lambda: say(said))


def _list_json(drums: DrumList) -> dict[str, object]:
    return {
        "note": drums.note,
        "customer": drums.customer,
        "told": dict(drums.told),
        "net_g": drums.net_g,
        "gross_g": drums.gross_g,
        "drums": [
            {
                "code": row.code,
                "supplier_lot": row.supplier_lot,
                "container": row.container,
                "gross_g": row.gross_g,
                "tare_g": row.tare_g,
                "net_g": row.net_g,
                "pending": row.pending,
                "moisture": row.moisture,
                "colour": row.colour,
                "season": row.season,
                "filled": row.filled.isoformat(),
                "owner": row.owner,
                "seal": row.seal,
            }
            for row in drums.rows
        ],
    }


def _show_list(desk: Desk, drums: DrumList) -> None:
    for caption, value in (("Of", drums.note), ("To", drums.customer), *drums.told):
        if value:
            say(f"{caption}: {value}")
    rows = [_list_row(desk, row) for row in drums.rows]
    gross = drums.gross_g
    sums = (gross, None if gross is None else gross - drums.net_g, drums.net_g)
    weights = ["" if grams is None else desk.shown(grams) for grams in sums]
    if any(row.pending for row in drums.rows):
        weights = ["", "", "some to follow"]
    rows.append([f"{len(rows)} in all", "", *weights, "", "", "", ""])
    table(
        (
            Column("drum"),
            Column("container"),
            Column("gross", right=True),
            Column("tare", right=True),
            Column("net", right=True),
            Column("moisture", right=True),
            Column("colour", right=True),
            Column("owner"),
            Column("seal"),
        ),
        rows,
    )


def _list_row(desk: Desk, row: DrumRow) -> list[str]:
    weights = ["" if one is None else desk.shown(one) for one in (row.gross_g, row.tare_g)]
    net = "to follow" if row.pending else desk.shown(row.net_g)
    return [
        row.code,
        row.container or row.supplier_lot,
        "" if row.pending else weights[0],
        weights[1],
        net,
        "" if row.moisture is None else format_moisture(row.moisture),
        "" if row.colour is None else format_colour(row.colour),
        row.owner,
        row.seal,
    ]
