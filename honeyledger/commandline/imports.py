"""Tables taken in: yards, receipts and results from files, and the sample season."""

from collections.abc import Callable
from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import output, progress
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.imports import ImportResult, import_receipts, import_yards
from honeyledger.exchange.results_import import import_results
from honeyledger.exchange.season import load_season
from honeyledger.services.house import House, Said


@click.group("import", no_args_is_help=True)
def import_() -> None:
    """Take in a spreadsheet's table of yards or receipts, or a laboratory's."""


@import_.command(cls=Recording)
@click.argument("file", metavar="FILE.csv")
@click.pass_obj
def yards(desk: Desk, file: str) -> None:
    """Register the yards of a table; those known by name are changed.

    Columns: name, number, colonies, forage, place, latitude, longitude, owner, note. All rows
    are taken in, or none and every reason why.

    \b
    Example: honeyledger import yards yards.csv
    Undo: reverse its entries, while nothing uses the yards.
    """
    _take_in(desk, file, import_yards)


@import_.command(cls=Recording)
@click.argument("file", metavar="FILE.csv")
@click.pass_obj
def receipts(desk: Desk, file: str) -> None:
    """Receive the pallets of a table, each when it arrived.

    Columns: pallet, arrived, yard, pulled, crew, supers, sheet, box, gross, tare, condition,
    moisture, owner. Rows of one pallet belong together. All rows are taken in, or none and
    every reason why.

    \b
    Example: honeyledger import receipts july.csv
    Undo: reverse its entries; corrected, the file is taken in anew.
    """
    _take_in(desk, file, import_receipts)


@import_.command(cls=Recording)
@click.argument("file", metavar="FILE.csv")
@click.pass_obj
def results(desk: Desk, file: str) -> None:
    """Keep a laboratory's results, each as it was reported.

    Columns: lot (or sample), laboratory, report, sampled, and any of moisture, colour, hmf,
    diastase, conductivity, free acid, fructose and glucose, sucrose, insolubles, optical density,
    yeast. A cell may be <5, >30 or not detected. All rows are taken in, or none and every reason.

    \b
    Example: honeyledger import results report-26-118.csv
    Undo: reverse its entries; corrected, the file is taken in anew.
    """
    _take_in(desk, file, import_results)


def _take_in(desk: Desk, file: str, read: Callable[[House, Path, Said], ImportResult]) -> None:
    result = read(desk.house, Path(file), desk.said())
    recorded = result.recorded
    written: dict[str, object] = {"entries": [], "codes": []}
    if recorded is not None:
        written = output.recorded_json(recorded, desk.digest_of(recorded))
    value = {"file": result.file, "rows": result.rows, **written, "again": result.again}

    def show() -> None:
        output.say(result.text)
        for note in recorded.notes if recorded and not result.again else ():
            output.say(f"Note: {note}")

    desk.answer(value, show)


@click.command(cls=Recording)
@click.pass_obj
def sample(desk: Desk) -> None:
    """Load the sample season into a new house.

    The house is made if the file is new. An invented house's own tables go through the same
    imports and verbs as yours.

    \b
    Example: honeyledger --house sample.honeyledger sample
    Undo: delete the file; it is a house of its own.
    """
    house = _new_or_begun(desk)
    with progress.bar("loading the sample season") as step:
        result = load_season(house.store, resource("sample"), step)
    head = desk.ask(lambda view: view.head())
    value = {
        "house": desk.house_name,
        "rows": result.rows,
        "entries": head.entry,
        "digest": head.digest,
    }
    desk.answer(
        value,
        lambda: output.say(
            f"The sample season is in {desk.house_name}: {result.rows} rows, {head.entry} entries."
        ),
    )


def _new_or_begun(desk: Desk) -> House:
    """The house named, made where there is none yet: a file, or an empty database."""
    try:
        return desk.house
    except Refusal as refusal:
        if refusal.key != "no-house":
            raise
    return desk.make_house()
