"""The registers a person fills in by hand, as data: what each asks, in the order of the work."""

from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QCoreApplication

YES = "yes"


class Typing(Enum):
    """How a fact is typed."""

    TEXT = "text"
    COUNT = "count"
    MASS = "mass"
    GRAMS = "grams"
    ZONE = "zone"
    UNIT = "unit"
    LINE = "line"
    VESSEL = "vessel"
    YES = "yes or no"


@dataclass(frozen=True, slots=True)
class Ask:
    """One fact of a record: its name there, its label, how it is typed, what it begins as.

    Args:
        offers: what a text is usually, to choose from; anything else may be typed.
        beside: whether its field stands beside the one before it.
    """

    key: str
    label: str
    typing: Typing = Typing.TEXT
    usual: str = ""
    unit: str = ""
    offers: tuple[str, ...] = ()
    beside: bool = False


@dataclass(frozen=True, slots=True)
class SetupKind:
    """One thing to register.

    Args:
        key: its own name; two kinds may go into one register (lines and tanks are vessels).
        register: the register of the ledger.
        title: what it is called, in the list.
        sentence: what is asked for, in one sentence.
        asks: its facts in the order they are asked; the first is the name.
        sort: the sort of vessel.
        needed: whether the first pallet cannot come in, or go on, without one.
    """

    key: str
    register: str
    title: str
    sentence: str
    asks: tuple[Ask, ...]
    sort: str = ""
    needed: bool = False


def tr(text: str) -> str:
    """A word of the set-up pages, in the language in use."""
    return QCoreApplication.translate("setup", text)


def setup_kinds() -> tuple[SetupKind, ...]:
    """What can be registered, in the order a new house needs it."""
    return (*_first_kinds(), *_further_kinds())


def _first_kinds() -> tuple[SetupKind, ...]:
    """What a house begins with."""
    return (
        SetupKind(
            "house",
            "house",
            tr("The house"),
            tr("Name the house. Its three usual boxes come with it."),
            (
                Ask("name", tr("Name of the house")),
                Ask("zone", tr("Time zone"), Typing.ZONE),
                Ask("unit", tr("Weighs in"), Typing.UNIT, "kg"),
                Ask("prefix", tr("Letters before every code, or none")),
            ),
            needed=True,
        ),
        SetupKind(
            "yard",
            "yard",
            tr("Yards"),
            tr("Name a yard; it gets a code for its pull sheet."),
            (
                Ask("name", tr("Name of the yard")),
                Ask("colonies", tr("Colonies"), Typing.COUNT),
                Ask("place", tr("Place"), beside=True),
                Ask("region", tr("Region a label may name")),
                Ask("country", tr("Country, if not the house's"), beside=True),
                Ask("organic", tr("Certified organic"), Typing.YES),
            ),
            needed=True,
        ),
        SetupKind(
            "line",
            "vessel",
            tr("Extracting lines"),
            tr("A line is what is never washed apart: extractor, sump, pump, pipe."),
            (Ask("name", tr("Name of the line"), usual="Line 1"),),
            sort="line",
            needed=True,
        ),
        SetupKind(
            "tank",
            "vessel",
            tr("Tanks"),
            tr("A tank is fed by a line; drums are filled from it."),
            (
                Ask("name", tr("Name of the tank"), usual="Tank 1"),
                Ask("fed_by", tr("Fed by the line"), Typing.LINE),
                Ask("capacity_g", tr("Holds"), Typing.MASS),
            ),
            sort="tank",
            needed=True,
        ),
    )


def _further_kinds() -> tuple[SetupKind, ...]:
    """What it adds as it goes on."""
    return (*_kinds_of_the_floor(), *_kinds_of_trade())


def _kinds_of_the_floor() -> tuple[SetupKind, ...]:
    """People, and the things they work with."""
    return (
        SetupKind(
            "operator",
            "operator",
            tr("People"),
            tr("Who works here? Each gets a badge code; entries carry the name."),
            (Ask("name", tr("Name")), Ask("role", tr("Work"))),
        ),
        SetupKind(
            "box",
            "box",
            tr("Boxes"),
            tr("The weights are common practice: put your own in."),
            (
                Ask("name", tr("Name of the box")),
                Ask("honey_g", tr("Honey in a full one"), Typing.MASS),
                Ask("tare_g", tr("Weight with empty frames"), Typing.MASS),
                Ask("frames", tr("Frames"), Typing.COUNT),
            ),
        ),
        SetupKind(
            "drum",
            "drum",
            tr("Drums and totes"),
            tr("Containers that are used again; a one-way drum needs no record."),
            (
                Ask("name", tr("Its name or number")),
                Ask("tare_g", tr("Weight when empty"), Typing.MASS),
            ),
        ),
        SetupKind(
            "room",
            "room",
            tr("Rooms"),
            tr("Where drums, pallets and cases stand: a stocktake walks them row by row."),
            (
                Ask("name", tr("Name of the room")),
                Ask(
                    "sort",
                    tr("Sort of room"),
                    offers=(tr("hot room"), tr("drum room"), tr("store")),
                ),
            ),
        ),
        SetupKind(
            "equipment",
            "equipment",
            tr("Equipment"),
            tr("What is checked, so that a fault says since when."),
            (
                Ask("name", tr("Name of the piece")),
                Ask(
                    "sort",
                    tr("Sort"),
                    offers=(tr("scale"), tr("refractometer"), tr("sieve"), tr("magnet")),
                ),
                Ask("number", tr("Number on it"), beside=True),
                Ask("at", tr("Part of the vessel or line, or none"), Typing.VESSEL),
            ),
        ),
    )


def _kinds_of_trade() -> tuple[SetupKind, ...]:
    """What is sold and bought, and with whom."""
    return (
        SetupKind(
            "product",
            "product",
            tr("Products"),
            tr("What is bottled: a name and the net content of a jar."),
            (
                Ask("name", tr("Name of the product")),
                Ask("net_g", tr("Net content"), Typing.GRAMS, unit="g"),
                Ask("gtin", tr("GTIN, if it has one"), beside=True),
                Ask("claims_region", tr("The one region its label says")),
                Ask("claims_organic", tr("Its label says organic"), Typing.YES),
            ),
        ),
        SetupKind(
            "customer",
            "customer",
            tr("Customers"),
            tr("Who honey goes to."),
            (Ask("name", tr("Name")), Ask("place", tr("Place"))),
        ),
        SetupKind(
            "supplier",
            "supplier",
            tr("Suppliers"),
            tr("Who honey is bought from; where it is from is asked of each drum, too."),
            (
                Ask("name", tr("Name")),
                Ask("country", tr("Country its honey is from")),
                Ask("place", tr("Place"), beside=True),
                Ask("organic", tr("Certified organic"), Typing.YES),
            ),
        ),
    )
