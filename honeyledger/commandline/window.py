"""Hands over to the window, on one's own house or on the sample season."""

from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import progress
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.sample_house import open_sample
from honeyledger.services.house import House


@click.command(cls=Asking)
@click.option("--sample", is_flag=True, help="On the sample season, kept apart from your house.")
@click.pass_obj
def window(desk: Desk, sample: bool) -> int:
    """Open the window.

    Without a house yet it asks how to begin: make one, look around in the sample season, or open
    one that is there. The sample season is loaded when it is first asked for; its clock goes on
    from where the season stands.

    \b
    Example: honeyledger window --sample
    """
    wiring = desk.wiring
    if sample:
        return wiring.open_window(sample_house(desk), desk.settings, wiring.sample_house())
    house = _house(desk)
    if house is None:
        return wiring.open_first(desk.where, desk.settings)
    desk.warn()
    return wiring.open_window(house, desk.settings, desk.where)


def _house(desk: Desk) -> House | None:
    """The house meant; None where one's own is not made yet."""
    try:
        return desk.house
    except Refusal as refusal:
        if refusal.key != "no-house" or desk.where != desk.wiring.house_named("", desk.settings):
            raise
        return None


def sample_house(desk: Desk) -> House:
    """The sample season's house, loaded if it is not there yet, with the season's own clock."""
    where = Path(desk.wiring.sample_house())
    with progress.bar("loading the sample season, once") as step:
        return open_sample(where, resource("sample"), desk.open, desk.wiring.clock_from, step)
