"""What is written down of checks, as two small forms: a check made, and a hold on what it puts in
doubt."""

from collections.abc import Sequence
from typing import Any

from honeyledger.desktop.language import fact_word
from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.stations.checks.words import counted, tr
from honeyledger.domain.checks import State
from honeyledger.domain.moments import parse_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.checks import RESULTS, Check
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.checks import CheckRow, ChecksPage
from honeyledger.services.checks_used import hold_on
from honeyledger.services.house import Recorded

MADE, HOLD = "made", "hold"
CHECKS, OFF_ONES = "checks", "off"
RIGHT, OFF = RESULTS

WHICH_CHECK = Sentence("which-check-made", "Choose the check that was made from the list.")
WHICH_OFF = Sentence(
    "which-check-off", "Choose the check that was found off; all that used it since is held."
)
SAY_SINCE = Sentence(
    "say-off-since",
    "Nobody knows since when {check} is off: keep the check again, with the time it may have been "
    "off since, or hold what it is about by its codes.",
)


def check_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order in which they are needed."""
    return (_made(), _hold())


def row_in(typed: FormTyped, reading: Reading) -> CheckRow | None:
    """The check that is meant."""
    page: ChecksPage | None = reading.page
    return page.row(typed.text("check")) if page else None


def is_off(typed: FormTyped, _reading: Reading | None = None) -> bool:
    """Whether it was found off."""
    return typed.text("result") == OFF


def last_right(row: CheckRow | None) -> str:
    """When it was last found right, as it can be typed; "" where it never was."""
    return format_moment(row.right_at) if row and row.right_at else ""


def _made() -> FormSpec:
    return FormSpec(
        MADE,
        tr("Check made"),
        tr("Choose the check; say whether all was right. One found off asks since when."),
        tr("Keep the check"),
        (
            (Ask("check", tr("Check"), Typing.CHOICE, offers=CHECKS),),
            (
                Ask(
                    "result",
                    tr("It is"),
                    Typing.BUTTONS,
                    buttons=((RIGHT, tr("right")), (OFF, tr("off"))),
                    usual=RIGHT,
                ),
            ),
            (
                Ask(
                    "since",
                    tr("Off since when? Blank: since it was last right"),
                    shown=is_off,
                ),
            ),
            (Ask("value", tr("What it showed")), Ask("note", tr("Note"))),
        ),
        _checked,
        _checked_words,
        fields={"equipment": "check", "what": "check"},
    )


def _checked(typed: FormTyped, reading: Reading) -> Sequence[Check]:
    row = row_in(typed, reading)
    if row is None:
        raise Refusal(WHICH_CHECK, field="check")
    return [
        Check(
            row.equipment,
            row.check.name,
            typed.text("result") or RIGHT,
            typed.text("value"),
            typed.text("note"),
            row.check.key,
            _since_ms(typed, row, reading),
        )
    ]


def _since_ms(typed: FormTyped, row: CheckRow, reading: Reading) -> int:
    """Since when it may have been off; 0 leaves it to the last time it was found right."""
    text = typed.text("since")
    if not is_off(typed) or not text or text == last_right(row):
        return 0
    page: ChecksPage = reading.page
    return parse_moment(text, page.zone, page.now_ms, field="since").at_ms


def _checked_words(typed: FormTyped, _done: Recorded, reading: Reading) -> str:
    row = row_in(typed, reading)
    name = row_name(row) if row else ""
    if is_off(typed):
        return tr("{check} was found off: look at what used it since.").format(check=name)
    return tr("{check} is in order.").format(check=name)


def row_name(row: CheckRow) -> str:
    """A check with what it is of."""
    name = fact_word(row.check.name)
    return f"{name}, {row.name}" if row.name else name


def _hold() -> FormSpec:
    return FormSpec(
        HOLD,
        tr("Hold what used it"),
        tr("One hold on every run, drum and jar that used it since; what comes of them is held."),
        tr("Hold all of it"),
        ((Ask("check", tr("Found off"), Typing.CHOICE, offers=OFF_ONES),),),
        _held,
        _held_words,
        fields={"hold": "check", "target": "check", "lots": "check"},
        grave=True,
    )


def _held(typed: FormTyped, reading: Reading) -> Sequence[Any]:
    row = row_in(typed, reading)
    page: ChecksPage | None = reading.page
    if row is None or page is None or row.state is not State.OFF:
        raise Refusal(WHICH_OFF, field="check")
    if row.key not in page.used:
        raise Refusal(SAY_SINCE, field="check", check=row_name(row))
    hold: PutOnHold = hold_on(page.used[row.key], row.check.name)
    return [hold]


def _held_words(_typed: FormTyped, done: Recorded, reading: Reading) -> str:
    page: ChecksPage | None = reading.page
    row = row_in(_typed, reading)
    rows = page.used[row.key].rows if page and row and row.key in page.used else ()
    lots = counted(len(rows), tr("1 lot"), tr("{n} lots"))
    words = tr("{lots} on hold with entry {entry}. Put them aside; release or clear by name.")
    return words.format(lots=lots, entry=done.entries[0].id)
