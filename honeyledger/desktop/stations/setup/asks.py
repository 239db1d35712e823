"""What a form of the set-up is made of, and which forms a new house goes through first."""

from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QCoreApplication

YES = "yes"
PATH = ("house", "operator", "yard", "box", "line", "tank")
"""The kinds a new house goes through until its first pallet can come, in this order."""


class Typing(Enum):
    """How a fact is typed."""

    TEXT = "text"
    COUNT = "count"
    MASS = "mass"
    GRAMS = "grams"
    MINUTES = "minutes"
    PERCENT = "percent"
    DEGREES = "degrees"
    DAY = "day"
    ZONE = "zone"
    UNIT = "unit"
    LINE = "line"
    VESSEL = "vessel"
    NAMED = "one of a register"
    BUTTONS = "buttons"
    YES = "yes or no"
    FILE = "file"
    MEASURE = "mm"
    PEOPLE = "people"
    PRINTER = "printer"
    STOCK = "label stock"


class Deed(Enum):
    """What saving a form does."""

    REGISTER = "register"
    CHECK = "check"
    SUPPLY = "supply"
    TABLE = "table"
    COMPUTER = "computer"
    KEPT = "kept"
    OPEN = "open"
    PAPERS = "papers"
    PRINTER = "printer"


@dataclass(frozen=True, slots=True)
class Ask:
    """One fact of a record: its name there, its label, how it is typed, what it begins as.

    Args:
        default: what counts where nothing is on record; shown, and recorded only when changed.
        offers: what a text is usually, to choose from; anything else may be typed.
        of: the register a name is chosen from.
        buttons: key and word of each, where it is asked by buttons.
        beside: whether its field stands beside the one before it.
        later: whether it is asked only when more facts are wanted, or it is on record.
        short: what a list says before it, where the label is long.
    """

    key: str
    label: str
    typing: Typing = Typing.TEXT
    usual: str = ""
    default: str = ""
    unit: str = ""
    offers: tuple[str, ...] = ()
    of: str = ""
    buttons: tuple[tuple[str, str], ...] = ()
    beside: bool = False
    later: bool = False
    short: str = ""


@dataclass(frozen=True, slots=True)
class SetupKind:
    """One thing to set up.

    Args:
        key: its own name; two kinds may go into one register (lines and tanks are vessels).
        register: the register of the ledger; "" for what is none.
        title: what it is called, in the list.
        sentence: what is asked for, in one sentence.
        asks: its facts in the order they are asked; the first of a register is the name.
        sort: the sort of vessel.
        needed: whether the first pallet cannot come in, or go on, without one.
        several: whether a new house usually has more than one of them.
        deed: what saving its form does.
        button: what the button says; "" for the usual words.
        opens: the page it opens, where saving it does that.
    """

    key: str
    register: str
    title: str
    sentence: str
    asks: tuple[Ask, ...] = ()
    sort: str = ""
    needed: bool = False
    several: bool = False
    deed: Deed = Deed.REGISTER
    button: str = ""
    opens: str = ""


def tr(text: str) -> str:
    """A word of the set-up pages, in the language in use."""
    return QCoreApplication.translate("setup", text)
