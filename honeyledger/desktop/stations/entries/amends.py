"""The ways in which the books can have been wrong, as data: what each asks, and the facts it says.

The ledger decides what an amendment does; here stands only how a person says it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import Enum

from PySide6.QtCore import QCoreApplication

from honeyledger.domain.moments import Moment, parse_day, parse_moment
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.corrections import Amend

AN_ENTRY = "an entry's number"


class Answer(Enum):
    """How the right value is given."""

    CHOICE = "choice"
    CODE = "code"
    DAY = "day"


@dataclass(frozen=True, slots=True)
class AmendKind:
    """One way in which the books can have been wrong.

    Args:
        key: the fact of the amendment that says what is right.
        title: what was wrong, as it is chosen.
        about: the label of what is amended.
        asks: the label of what is right.
        answer: how that is given.
        register: where it is chosen from.
        letters: the letters of the codes that can be amended so; "" for an entry's number.
        right: the letter of the code that says what is right.
        has_time: whether it matters when it happened.
    """

    key: str
    title: str
    about: str
    asks: str
    answer: Answer = Answer.CHOICE
    register: str = ""
    letters: str = ""
    right: str = ""
    has_time: bool = False


@dataclass(frozen=True, slots=True)
class AmendTyped:
    """The form as typed; `right` is the key of what was chosen, else as typed."""

    what: str = ""
    about: str = ""
    right: str = ""
    happened: str = ""
    reason: str = ""


def tr(text: str) -> str:
    """A word of the entries' pages, in the language in use."""
    return QCoreApplication.translate("entries", text)


def amend_kinds() -> tuple[AmendKind, ...]:
    """All of them, in the order of the line."""
    return (*_of_sources(), *_of_fills())


def _of_sources() -> tuple[AmendKind, ...]:
    """Where honey came from, and what it went into."""
    return (
        AmendKind(
            "yard",
            tr("It came from another yard"),
            tr("Pull: scan a label of it"),
            tr("The right yard"),
            register="yard",
            letters="S",
        ),
        AmendKind(
            "supplier",
            tr("Another supplier sold it"),
            tr("Drum bought in: scan its label"),
            tr("The right supplier"),
            register="supplier",
            letters="P",
        ),
        AmendKind(
            "pallet",
            tr("The honey of unknown source was a pallet"),
            tr("Unknown honey: its code"),
            tr("The pallet's tag"),
            Answer.CODE,
            letters="S",
            right="G",
            has_time=True,
        ),
        AmendKind(
            "run",
            tr("The drum that was found is of a run"),
            tr("Drum that was found: scan its label"),
            tr("The run's code"),
            Answer.CODE,
            letters="DS",
            right="R",
        ),
        AmendKind(
            "entry",
            tr("It belongs to a run"),
            tr("What is in no run: its entry's number"),
            tr("The run's code"),
            Answer.CODE,
            right="R",
        ),
        AmendKind(
            "load",
            tr("It was loaded into another vessel"),
            tr("The load: its entry's number"),
            tr("The right vessel"),
            register="vessel",
        ),
    )


def _of_fills() -> tuple[AmendKind, ...]:
    """What a drum, jars or comb were filled from, when, into what, as which product."""
    return (
        AmendKind(
            "source",
            tr("It was filled from another vessel"),
            tr("Drum or jar lot: scan its label"),
            tr("The right vessel"),
            register="vessel",
            letters="DJK",
        ),
        AmendKind(
            "container",
            tr("It is in another container"),
            tr("Drum: scan its label"),
            tr("The right container"),
            register="drum",
            letters="DJ",
        ),
        AmendKind(
            "filled_on",
            tr("It was filled on another day"),
            tr("Drum or jar lot: scan its label"),
            tr("The right day"),
            Answer.DAY,
            letters="DJK",
        ),
        AmendKind(
            "product",
            tr("It is another product"),
            tr("Jar lot: scan a label of it"),
            tr("The right product"),
            register="product",
            letters="DJK",
        ),
    )


# The field of the form in which a refused fact was typed.
FIELD_OF = {
    "lot": "about",
    "load": "about",
    "entry": "about",
    "yard": "right",
    "supplier": "right",
    "pallet": "right",
    "run": "right",
    "vessel": "right",
    "source": "right",
    "container": "right",
    "filled_on": "right",
    "product": "right",
    "happened": "happened",
    "reason": "reason",
}


def amend_of(typed: AmendTyped, today: date) -> Amend:
    """The facts the form says.

    Raises:
        Refusal: something in it cannot be read; its field names the fact.
    """
    about, right, reason = typed.about.strip(), typed.right.strip(), typed.reason.strip()
    if typed.what == "load":
        number = parse_count(about, AN_ENTRY, least=1, field="load")
        return Amend(reason=reason, load=number, vessel=right)
    if typed.what == "entry":
        number = parse_count(about, AN_ENTRY, least=1, field="entry")
        return Amend(reason=reason, entry=number, run=right)
    if typed.what == "filled_on":
        day = parse_day(right, today, field="filled_on").isoformat()
        return Amend(lot=about, reason=reason, filled_on=day)
    facts: Mapping[str, str] = {typed.what: right}
    return Amend(lot=about, reason=reason, **facts)  # type: ignore[arg-type] # all are texts


def happened_of(typed: AmendTyped, zone: str, now_ms: int) -> Moment | None:
    """When it happened, where that was said.

    Raises:
        Refusal: it is no date and time.
    """
    text = typed.happened.strip()
    return parse_moment(text, zone, now_ms) if text else None
