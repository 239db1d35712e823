"""Where honey can stand: the names of places, and which of them are inside the house.

A place is written "class/key": "pallet/G26-0231-2", "vessel/E26-0003-X", "yard/Y26-0014-K".
Inside places can never hold less than nothing; outside places count what came from or went
to the world, and may go below zero.
"""

PALLET = "pallet"
ROOM = "room"
VESSEL = "vessel"
DRUM = "drum"
BARREL = "barrel"
FILLING = "filling"  # the jars of an open bottling, until they are closed into a jar lot
JARS = "jars"
STORE = "store"  # added ingredients and packaging

YARD = "yard"
SUPPLIER = "supplier"
UNKNOWN = "unknown"
CUSTOMER = "customer"
GATE = "gate"  # farm gate, one place a day
FARM_GATE = "gate"  # how a person names it, where a customer is asked for
DISCARDED = "discarded"
SAMPLED = "sampled"
EVAPORATED = "evaporated"
FED = "fed"
DIFFERENCE = "difference"  # weighing difference: what the scale says against the books

INSIDE = frozenset({PALLET, ROOM, VESSEL, DRUM, BARREL, FILLING, JARS, STORE})
SOURCES = frozenset({YARD, SUPPLIER, UNKNOWN})
OUTSIDE = SOURCES | {CUSTOMER, GATE, DISCARDED, SAMPLED, EVAPORATED, FED, DIFFERENCE}


def place(kind: str, key: str = "") -> str:
    """The place's name; classes that are one place only have no key."""
    return f"{kind}/{key}" if key else kind


def class_of(name: str) -> str:
    """The class of a place: "vessel" of "vessel/E26-0003-X"."""
    return name.partition("/")[0]


def key_of(name: str) -> str:
    """The code or key of a place, "" where the class is one place."""
    return name.partition("/")[2]


def is_inside(name: str) -> bool:
    """Whether the place is in the house, so that it can never be overdrawn."""
    return class_of(name) in INSIDE


def is_source(name: str) -> bool:
    """Whether traces end here: a yard, a supplier, or nobody knows."""
    return class_of(name) in SOURCES
