"""Hands over to the window, on one's own house or on the sample season."""

from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import progress
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS, load_season
from honeyledger.services.house import House
from honeyledger.services.setup import new_house


@click.command(cls=Asking)
@click.option("--sample", is_flag=True, help="On the sample season, kept apart from your house.")
@click.pass_obj
def window(desk: Desk, sample: bool) -> int:
    """Open the window.

    Without a house yet, an empty one is made in your data folder. The sample season is loaded
    when it is first asked for; its clock goes on from where the season stands.

    \b
    Example: honeyledger window --sample
    """
    house = sample_house(desk) if sample else _house(desk)
    if not sample:
        desk.warn()
    where = desk.wiring.sample_house() if sample else desk.where
    return desk.wiring.open_window(house, desk.settings, where)


def _house(desk: Desk) -> House:
    """The house named; the user's own is made where there is none."""
    try:
        return desk.house
    except Refusal as refusal:
        if refusal.key != "no-house" or desk.where != desk.wiring.house_named("", desk.settings):
            raise
    house = desk.make_house()
    house.record_all(new_house("Our House", desk.wiring.local_zone()), desk.said())
    return house


def sample_house(desk: Desk) -> House:
    """The sample season's house, loaded if it is not there yet, with the season's own clock.

    It is loaded beside its place and moved there when whole, so that a load broken off goes on.
    """
    where = Path(desk.wiring.sample_house())
    if not where.exists():
        part = where.with_name(f"{where.name}.part")
        beside = desk.open(str(part), create=not part.exists())
        with progress.bar("loading the sample season, once") as step:
            load_season(beside.store, resource("sample"), step)
        beside.store.close()
        part.rename(where)
    house = desk.open(str(where))
    last = house.ask(lambda view: view.entries(last=1))[-1]
    start_ms = max(SAMPLE_NOW_MS, last.recorded_ms)
    return House(house.store, desk.wiring.clock_from(start_ms), house.new_id)
