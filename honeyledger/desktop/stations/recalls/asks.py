"""What is written down of a recall, as small forms: opened, told, answered, closed."""

from collections.abc import Callable, Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.stations.recalls.passing import PLACE, SINCE, UNTIL
from honeyledger.desktop.stations.recalls.words import counted, tr
from honeyledger.domain.moments import parse_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count, parse_mass_g
from honeyledger.ledger.verbs.recalls import (
    DRILL,
    SORTS,
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.services.house import Recorded
from honeyledger.services.recall_rows import Consignee
from honeyledger.services.recalls_page import RecallsPage

OPEN, TOLD, ANSWER, CLOSE = "open", "told", "answer", "close"
YARDS, CASES, CUSTOMERS, PEOPLE = "yards", "cases", "customers", "people"
THEIR_LOTS = "their lots"
WRONGS = "wrongs"
EQUIPMENT = "equipment"
BY = ("phone", "letter", "e-mail")
ALL = "all"

WHICH_CASE = Sentence("which-recall", "Choose the case that is meant, or open one first.")
WHICH_CUSTOMER = Sentence("which-recall-customer", "Choose the customer from the list.")


Passed = Callable[[FormTyped], tuple[str, ...]]


def recall_forms(passed: Passed = lambda _typed: ()) -> tuple[FormSpec, ...]:
    """The forms, in the order in which they are needed.

    Args:
        passed: the codes of what went through the equipment that is typed.
    """
    return (_open(passed), _told(), _answer(), _close())


def _case(typed: FormTyped, reading: Reading) -> str:
    """The case that is meant: the one chosen, else the one in hand."""
    page: RecallsPage | None = reading.page
    code = typed.text("recall") or (page.case.code if page and page.case else "")
    if not code:
        raise Refusal(WHICH_CASE, field="recall")
    return code


def _case_ask() -> Ask:
    return Ask("recall", tr("Case"), Typing.CHOICE, offers=CASES)


def is_drill(typed: FormTyped, _reading: Reading | None = None) -> bool:
    """Whether nothing is called back for true."""
    return typed.text("sort") == DRILL


def _open(passed: Passed) -> FormSpec:
    words = {"recall": tr("recall"), "withdrawal": tr("withdrawal"), "drill": tr("drill")}
    return FormSpec(
        OPEN,
        tr("Open"),
        tr("Scan a jar, a drum or a pull; or choose a yard. All stock in scope is held at once."),
        tr("Open the case"),
        (
            (Ask("about", tr("What is wrong, in a few words"), Typing.FREE, offers=WRONGS),),
            (
                Ask(
                    "sort",
                    tr("It is a"),
                    Typing.BUTTONS,
                    buttons=tuple((key, words[key]) for key in SORTS),
                    usual=SORTS[0],
                ),
            ),
            (
                Ask("lots", tr("Lots, jars"), many=True, part=2),
                Ask(
                    "their_lot",
                    tr("Or a supplier's lot"),
                    Typing.CHOICE,
                    offers=THEIR_LOTS,
                    shown=_nothing_scanned,
                ),
            ),
            (
                Ask("yard", tr("Or a yard"), Typing.CHOICE, offers=YARDS, part=2),
                Ask("first_day", tr("Pulled from"), Typing.DAY, shown=_of_a_yard),
                Ask("last_day", tr("to"), Typing.DAY, shown=_of_a_yard),
            ),
            (
                Ask(
                    PLACE,
                    tr("Or equipment"),
                    Typing.CHOICE,
                    offers=EQUIPMENT,
                    part=2,
                    shown=lambda typed, _page: not typed.text("lots") or bool(typed.text(PLACE)),
                ),
                Ask(SINCE, tr("In use from"), shown=_through_one),
                Ask(UNTIL, tr("to, else now"), shown=_through_one),
            ),
            (Ask("found", tr("How and when it was found")),),
            (Ask("risk", tr("What it may do, and who judged it")),),
        ),
        lambda typed, reading: _opened(typed, reading, passed),
        _opened_words,
        scan="lots",
    )


def _nothing_scanned(typed: FormTyped, _reading: Reading) -> bool:
    return not typed.text("lots")


def _of_a_yard(typed: FormTyped, _reading: Reading) -> bool:
    return bool(typed.text("yard"))


def _through_one(typed: FormTyped, _reading: Reading) -> bool:
    return bool(typed.text(PLACE))


def _opened(typed: FormTyped, reading: Reading, passed: Passed) -> Sequence[OpenRecall]:
    first, last = (_day(typed, key, reading) if typed.text("yard") else "" for key in _DAYS)
    return [
        OpenRecall(
            typed.text("about"),
            tuple(dict.fromkeys((*_lots(typed, reading), *passed(typed)))),
            typed.text("yard"),
            first,
            last,
            typed.text("found"),
            typed.text("risk"),
            typed.text("sort") or SORTS[0],
        )
    ]


def _lots(typed: FormTyped, reading: Reading) -> tuple[str, ...]:
    """What was scanned, and all that came in under the supplier's lot that was chosen."""
    page: RecallsPage | None = reading.page
    wanted = typed.text("their_lot")
    theirs = [one.codes for one in page.their_lots if one.text == wanted] if page else []
    return tuple(dict.fromkeys((*typed.codes("lots"), *(code for one in theirs for code in one))))


_DAYS = ("first_day", "last_day")


def _day(typed: FormTyped, key: str, reading: Reading) -> str:
    text = typed.text(key)
    return parse_day(text, reading.today, field=key).isoformat() if text else ""


def _opened_words(typed: FormTyped, done: Recorded, _reading: Reading) -> str:
    if is_drill(typed):
        return tr("{case} is open: a drill, which holds nothing. The clock runs.").format(
            case=done.given[0]
        )
    return tr("{case} is open, and all stock in its scope is on hold.").format(case=done.given[0])


def _told() -> FormSpec:
    words = {"phone": tr("phone"), "letter": tr("letter"), "e-mail": tr("e-mail")}
    return FormSpec(
        TOLD,
        tr("Told"),
        tr("Choose who was told. A call is best confirmed in writing."),
        tr("Keep that they were told"),
        (
            (_case_ask(),),
            (Ask("customers", tr("Who was told"), Typing.CHOICE, offers=CUSTOMERS),),
            (
                Ask(
                    "how",
                    tr("How"),
                    Typing.BUTTONS,
                    buttons=tuple((key, words[key]) for key in BY),
                    usual=BY[0],
                ),
            ),
            (Ask("whom", tr("Who there took it")), Ask("note", tr("Note"))),
        ),
        _told_facts,
        lambda typed, _done, reading: tr("{who} told.").format(who=_who(typed, reading)),
    )


def _consignees(reading: Reading) -> Sequence[Consignee]:
    """Who has some of the case in hand."""
    page: RecallsPage | None = reading.page
    return page.case.consignees if page and page.case else ()


def _name_of(key: str, reading: Reading) -> str:
    return next((one.name for one in _consignees(reading) if one.key == key), key)


def _names(typed: FormTyped, reading: Reading) -> tuple[str, ...]:
    """The keys of the customers that are meant; all who were not told yet, where that is said."""
    chosen = typed.text("customers")
    if chosen == ALL:
        return tuple(one.key for one in _consignees(reading) if one.key and not one.told)
    return (chosen,) if chosen else ()


def _who(typed: FormTyped, reading: Reading) -> str:
    keys = _names(typed, reading)
    if len(keys) == 1:
        return _name_of(keys[0], reading)
    return counted(len(keys), tr("1 customer"), tr("{n} customers"))


def _told_facts(typed: FormTyped, reading: Reading) -> Sequence[TellConsignees]:
    return [
        TellConsignees(
            _case(typed, reading),
            _names(typed, reading),
            typed.text("how") or BY[0],
            typed.text("whom"),
            typed.text("note"),
        )
    ]


def _answer() -> FormSpec:
    return FormSpec(
        ANSWER,
        tr("Answered"),
        tr("What they have on hand still, and what was destroyed. A later answer counts."),
        tr("Keep the answer"),
        (
            (_case_ask(),),
            (Ask("customer", tr("Who answered"), Typing.CHOICE, offers=CUSTOMERS),),
            (
                Ask("here_g", tr("On hand"), Typing.MASS),
                Ask("here_jars", tr("in jars"), Typing.COUNT),
            ),
            (
                Ask("destroyed_g", tr("Destroyed"), Typing.MASS),
                Ask("destroyed_jars", tr("in jars"), Typing.COUNT),
            ),
            (Ask("proof", tr("How that is proved")),),
            (Ask("passed_on", tr("Passed on to")), Ask("note", tr("Note"))),
        ),
        _answered,
        lambda typed, _done, reading: tr("The answer of {who} is kept.").format(
            who=_name_of(typed.text("customer"), reading)
        ),
    )


def _answered(typed: FormTyped, reading: Reading) -> Sequence[AnswerRecall]:
    customer = typed.text("customer")
    if not customer or customer == ALL:
        raise Refusal(WHICH_CUSTOMER, field="customer")

    def mass(key: str) -> int | None:
        text = typed.text(key)
        return parse_mass_g(text, reading.unit, field=key) if text else None

    def count(key: str) -> int | None:
        text = typed.text(key)
        return parse_count(text, "a number of jars", field=key) if text else None

    return [
        AnswerRecall(
            _case(typed, reading),
            customer,
            mass("here_g"),
            count("here_jars"),
            mass("destroyed_g") or 0,
            count("destroyed_jars") or 0,
            typed.text("proof"),
            typed.text("passed_on"),
            typed.text("note"),
        )
    ]


def _close() -> FormSpec:
    return FormSpec(
        CLOSE,
        tr("Close"),
        tr("By name: what the case holds is free then. Of a drill, what was looked up by hand."),
        tr("Close the case"),
        (
            (_case_ask(),),
            (Ask("result", tr("What came of it, and of the cause")),),
            (Ask("disposal", tr("What became of the honey, with proofs")),),
            (Ask("despite", tr("Why one who was not told need not be")),),
            (Ask("second", tr("Second person, where two sign"), Typing.CHOICE, offers=PEOPLE),),
        ),
        lambda typed, reading: [
            CloseRecall(
                _case(typed, reading),
                typed.text("result"),
                typed.text("disposal"),
                typed.text("despite"),
                typed.text("second"),
            )
        ],
        lambda _typed, _done, _reading: tr("The case is closed, and what it held is free."),
        grave=True,
    )
