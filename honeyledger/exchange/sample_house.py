"""The sample season as a house of its own: loaded once, with the clock of its season."""

from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Protocol

from honeyledger.exchange.season import SAMPLE_NOW_MS, load_season
from honeyledger.services.house import House


class OpenHouse(Protocol):
    """Opens the house at a place, or makes one there."""

    def __call__(self, where: str, *, create: bool = False) -> House:
        """The house; whoever asked for it closes it."""


def open_sample(
    where: Path,
    tables: Path,
    open_house: OpenHouse,
    clock_from: Callable[[int], Callable[[], int]],
    report: Callable[[int, int, str], None],
) -> House:
    """The sample season's house, loaded if it is not there yet, its clock going on from its end.

    It is loaded beside its place and moved there when whole, so that a load broken off goes on.

    Args:
        where: the file it is kept in.
        tables: the folder of the season's tables.
        clock_from: a clock that goes on from a moment as time passes.
        report: told how many rows are loaded, of how many, and of which day.
    """
    if not where.exists():
        part = where.with_name(f"{where.name}.part")
        beside = open_house(str(part), create=not part.exists())
        with closing(beside.store):
            load_season(beside.store, tables, report)
        part.rename(where)
    house = open_house(str(where))
    last = house.ask(lambda view: view.entries(last=1))[-1]
    start_ms = max(SAMPLE_NOW_MS, last.recorded_ms)
    return House(house.store, clock_from(start_ms), house.new_id)
