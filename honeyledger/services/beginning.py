"""The ways from a machine without a house into one: made, opened, or the sample season's."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House

Report = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Opened:
    """A house that is open, and the file or address it is in."""

    house: House
    where: str


@dataclass(frozen=True, slots=True)
class Doors:
    """What the program's root lends whoever begins.

    Args:
        zone: the name of this computer's time zone.
        where: the file or address a new house goes to.
        is_missed: whether a house was meant to be there.
        make: makes it and records its first facts, all or nothing.
        open: opens a house by its file or address.
        sample: opens the sample season, which is loaded once; told how far that is.
    """

    zone: str
    where: str
    is_missed: bool
    make: Callable[[Sequence[Register]], Opened]
    open: Callable[[str], Opened]
    sample: Callable[[Report], Opened]
