"""What is written down when something is wrong: all of it held, a complaint, its answer."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.complaint_asks import COMPLAINT as COMPLAINT
from honeyledger.desktop.models.complaint_asks import complaint_form
from honeyledger.desktop.stations.trace.words import counted, tr
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.verbs.jars import Complain
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.house import Recorded
from honeyledger.services.recall_page import RecallPage

HOLD, ANSWER = "hold", "answer"
REASONS, OPEN = "reasons", "open"

WHICH_COMPLAINT = Sentence(
    "which-complaint",
    "Choose the complaint that is answered, by the number of the entry that took it in.",
)
NO_ANSWER = Sentence("no-answer", "Say what they were answered, or what was found.")


def recall_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order in which they are needed."""
    return (_hold(), complaint_form(), _answer())


def _code(label: str) -> Ask:
    return Ask("code", label)


def _hold() -> FormSpec:
    return FormSpec(
        HOLD,
        tr("Hold"),
        tr("Scan a jar, a drum or a yard: all that it went into is held with it."),
        tr("Hold all of it"),
        (
            (_code(tr("Jar, lot or yard")),),
            (Ask("reason", tr("Reason"), Typing.FREE, offers=REASONS),),
        ),
        _held,
        _held_words,
        scan="code",
        fields={"target": "code"},
        grave=True,
    )


def _lot(typed: FormTyped, reading: Reading) -> str:
    """The lot of a jar's code; anything else as it was typed."""
    page = reading.page
    text = typed.text("code")
    if isinstance(page, RecallPage) and page.scope is not None and page.asked == text:
        return page.scope.code
    return text


def _held(typed: FormTyped, reading: Reading) -> Sequence[PutOnHold]:
    return [PutOnHold(_lot(typed, reading), typed.text("reason"))]


def _held_words(typed: FormTyped, _done: Recorded, reading: Reading) -> str:
    page = reading.page
    code = _lot(typed, reading)
    if not isinstance(page, RecallPage) or page.scope is None or page.scope.code != code:
        return tr("{code} is on hold, and all that came of it.").format(code=code)
    words = counted(len(page.scope.lots), tr("1 lot"), tr("{n} lots"))
    mass = format_mass(page.scope.here_g, reading.unit)
    done = tr("{name} is on hold, and all that came of it: {lots}, {mass} here.")
    return done.format(name=page.scope.name, lots=words, mass=mass)


def _answer() -> FormSpec:
    return FormSpec(
        ANSWER,
        tr("Answer"),
        tr("Choose the complaint, and say what was found or answered."),
        tr("Keep the answer"),
        (
            (Ask("number", tr("Complaint"), Typing.CHOICE, offers=OPEN),),
            (Ask("answer", tr("Answer")),),
        ),
        _answered,
        _answered_words,
        fields={"completes": "number"},
    )


def _answered(typed: FormTyped, reading: Reading) -> Sequence[Complain]:
    """The complaint as it was taken in, with its answer."""
    page = reading.page
    row = page.complaint(typed.text("number")) if isinstance(page, RecallPage) else None
    if row is None:
        raise Refusal(WHICH_COMPLAINT, field="number")
    if not typed.text("answer"):
        raise Refusal(NO_ANSWER, field="answer")
    code = row.jar or row.lot
    return [Complain(code, row.what, row.who, row.day, typed.text("answer"), row.number)]


def _answered_words(typed: FormTyped, _done: Recorded, _reading: Reading) -> str:
    return tr("Complaint {number} is answered.").format(number=typed.text("number"))
