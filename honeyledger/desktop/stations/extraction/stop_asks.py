"""A stop of the line as a small form: how long it stood, and why, by one press."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.stops import REASONS, Stop

STOP, LINES = "stop", "lines"


def tr(text: str) -> str:
    """A text of the extraction floor."""
    return QCoreApplication.translate("extraction", text)


def stop_form() -> FormSpec:
    """The line stood still until now."""
    return FormSpec(
        STOP,
        tr("Stop"),
        tr("The line stood still until now: for how long, and why. It counts as no pace."),
        tr("Book the stop"),
        (
            (
                Ask("line", tr("Line"), Typing.CHOICE, offers=LINES, part=3),
                Ask("minutes", tr("Minutes"), Typing.COUNT, unit=tr("min"), part=2),
            ),
            (
                Ask(
                    "reason",
                    tr("Why"),
                    Typing.BUTTONS,
                    buttons=tuple((key, say(words)) for key, words in REASONS.items()),
                    in_row=2,
                ),
            ),
            (Ask("why", tr("What broke, if anything")),),
        ),
        _stopped,
        lambda typed, _done, _reading: tr("{n} min are booked as a stop.").format(
            n=typed.text("minutes")
        ),
        scan="line",
    )


def _stopped(typed: FormTyped, _reading: Reading) -> Sequence[Stop]:
    minutes = parse_count(typed.text("minutes"), "a number of minutes", field="minutes")
    return [Stop(typed.text("line"), typed.text("reason"), minutes, typed.text("why"))]
