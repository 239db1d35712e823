"""A complaint as a small form: the same wherever one is taken in, at dispatch or with a trace."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.domain.moments import parse_day
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.services.house import Recorded

COMPLAINT = "complaint"
TAKEN = "JKD"
"""The letters of the codes its scanned answer takes."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("complaints", text)


def complaint_form() -> FormSpec:
    """Which jar, who says what, when, and what they were told."""
    return FormSpec(
        COMPLAINT,
        _tr("Complaint"),
        _tr("Scan the jar. What may hurt someone: hold the lot, and tell your authority."),
        _tr("Keep the complaint"),
        (
            (Ask("code", _tr("Jar or lot")), Ask("who", _tr("Who says it"))),
            (Ask("what", _tr("What is wrong")),),
            (
                Ask("day", _tr("Day, blank for today"), Typing.DAY),
                Ask("answer", _tr("What they were told")),
            ),
        ),
        _facts,
        _words,
        scan="code",
    )


def _facts(typed: FormTyped, reading: Reading) -> Sequence[Complain]:
    code, what, who, day = (typed.text(key) for key in ("code", "what", "who", "day"))
    on = parse_day(day, reading.today, field="day").isoformat() if day else ""
    return [Complain(code, what, who, on, typed.text("answer"))]


def _words(typed: FormTyped, done: Recorded, _reading: Reading) -> str:
    words = _tr("The complaint about {code} is kept as entry {entry}, with its trace.")
    return words.format(code=typed.text("code"), entry=done.entries[0].id)
