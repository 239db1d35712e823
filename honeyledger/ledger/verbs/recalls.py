"""A recall: opened on lots or a yard's pulls, customers told and what they answer, and its end.

One entry opens the case and holds all stock in scope, what is still to be made of it included.
What is narrowed out of the scope is cleared of that hold by name (`quality.Clear`), so that it
stays visible; the hold ends with the case. What comes back is taken back, what is destroyed here
thrown away, by their own verbs.

What a case must hold follows 21 CFR 7.46, 7.49 and 7.53 (public copies seen); whom to tell, by
when and with which words is for the authority and the local code.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import JarCode
from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json
from honeyledger.ledger.holds import Hold, hold_from, reach_of, targets_of
from honeyledger.ledger.lookup import find_lot, find_record, read_code, read_iso_day, refuse_wrong
from honeyledger.ledger.mixing import few, name_of
from honeyledger.ledger.once import check_once
from honeyledger.ledger.places import CUSTOMER, GATE, YARD, class_of, key_of, place
from honeyledger.ledger.signing import check_reason, check_second, check_signer
from honeyledger.ledger.state import State

RECALL, CASE, TOLD, ANSWERED, CLOSED = "recall", "case", "told/", "answered/", "closed"
SORTS = ("recall", "withdrawal", "drill")
"""From consumers; before it reached them; a rehearsal that holds nothing."""
DRILL = SORTS[2]
MISSING_WARN, MISSING_EXPLAIN = "missing_warn_permille", "missing_explain_permille"
"""Facts of the house's record: how much of a case may be missing before one looks, explains."""

NOTHING_RECALLED = Sentence(
    "recall-nothing", "Name the lots that are called back, or a yard and its days."
)
LOTS_AND_YARD = Sentence(
    "recall-lots-and-yard", "Name lots or a yard, not both: open a second case for the other."
)
UNKNOWN_SORT = Sentence(
    "recall-sort", "{sort} is no kind of case. Choose recall, withdrawal or drill."
)
RECALL_DAYS = Sentence(
    "recall-days", "The days end on {last}, before they begin on {first}. Correct them."
)
CUSTOMERS_HAVE = Sentence(
    "recall-customers-have",
    "Customers have some of it: {who}. Agree with your authority whom to tell and by when, then "
    "note each as told.",
)
AT_THE_GATE = Sentence(
    "recall-at-the-gate",
    "Some went at the farm gate to people nobody knows: agree with your authority how the public "
    "is told.",
)
NOBODY_HAS = Sentence("recall-nobody-has", "No customer has any of it, as far as the books know.")
RECALL_CLOSED = Sentence(
    "recall-closed", "{recall} is closed. Open another case if more has come to light."
)
NOT_A_CUSTOMER_OF = Sentence(
    "recall-not-theirs",
    "By the books {customer} has none of {recall}. Look at the dispatch notes, or name who has.",
)
NOBODY_TOLD = Sentence("recall-nobody-told", "Name the customers who were told.")
HOW_TOLD = Sentence("recall-how-told", "Say how they were told: phone, letter, e-mail.")
ANSWER_EMPTY = Sentence(
    "recall-answer-empty",
    "Say what {customer} has on hand still, 0 where nothing, and what was destroyed.",
)
ANSWER_BELOW_NONE = Sentence("recall-answer-below", "{number} cannot be on hand: type 0 or more.")
NO_PROOF = Sentence(
    "recall-no-proof", "Say how it is proved that {customer} destroyed it: a note, photographs."
)
NOT_ALL_TOLD = Sentence(
    "recall-not-all-told",
    "Not told yet: {who}. Tell them first, or close it by saying why they need not be.",
)


@dataclass(frozen=True, slots=True)
class OpenRecall:
    """A case is opened on lots by code, or on a yard's pulls of some days (ISO, inclusive).

    Args:
        about: what is wrong, in a few words: it names the case.
        found: how and when it was found.
        risk: what it may do to whom, and who judged it.
        sort: see `SORTS`.
    """

    kind: ClassVar[str] = "open recall"
    about: str
    lots: tuple[str, ...] = ()
    yard: str = ""
    first_day: str = ""
    last_day: str = ""
    found: str = ""
    risk: str = ""
    sort: str = SORTS[0]


@dataclass(frozen=True, slots=True)
class TellConsignees:
    """Customers were told.

    Args:
        how: phone, letter, e-mail; a call is best confirmed in writing.
        whom: the person there who took it.
    """

    kind: ClassVar[str] = "recall notice"
    recall: str
    customers: tuple[str, ...]
    how: str
    whom: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class AnswerRecall:
    """What a customer answered, as of now; a later answer takes the place of an earlier one.

    Args:
        here_g, here_jars: on their hand still; None where they did not say.
        destroyed_g, destroyed_jars: destroyed at theirs, with its `proof`.
        passed_on: to whom they sent some on.
    """

    kind: ClassVar[str] = "recall answer"
    recall: str
    customer: str
    here_g: int | None = None
    here_jars: int | None = None
    destroyed_g: int = 0
    destroyed_jars: int = 0
    proof: str = ""
    passed_on: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CloseRecall:
    """The case ends, by name, and what it holds is free.

    Args:
        result: what came of it, and what was done about the cause.
        disposal: what became of the honey, with the proofs.
        despite: why a customer who was not told need not be.
        second: who agrees, where the house's record asks for two people.
    """

    kind: ClassVar[str] = "close recall"
    recall: str
    result: str
    disposal: str = ""
    despite: str = ""
    second: str = ""


@dataclass(frozen=True, slots=True)
class Case:
    """A case as the ledger has it: its mark's value, and the hold that is its scope."""

    code: str
    entry: int
    at_ms: int
    value: Mapping[str, Json]
    hold: Hold
    is_closed: bool

    @property
    def subject(self) -> str:
        """Where its marks are."""
        return place(RECALL, self.code)


def book_open_recall(facts: OpenRecall, b: Booking) -> None:
    """Give the case its code, write down what it stands on, and hold that from now on."""
    check_reason(facts.about, "about")
    if facts.sort not in SORTS:
        raise Refusal(UNKNOWN_SORT, field="sort", sort=facts.sort)
    target, lots, days = _stands_on(facts, b)
    code = b.new_code("Q")
    scope: dict[str, Json] = {
        "target": target or code,
        "lots": lots,
        "from": days[0],
        "to": days[1],
        "reason": facts.about.strip(),
        "by": b.act.operator,
    }
    said = {
        "about": facts.about.strip(),
        "found": facts.found.strip(),
        "risk": facts.risk.strip(),
        "sort": facts.sort,
        "scope": scope,
        "hold": "" if facts.sort == DRILL else f"hold/{b.entry_id}",
    }
    b.mark(place(RECALL, code), CASE, said)
    if facts.sort != DRILL:
        b.mark(f"hold/{b.entry_id}", "hold", scope)
    _note_customers(b, hold_from(f"hold/{b.entry_id}", scope, ()))


def _stands_on(facts: OpenRecall, b: Booking) -> tuple[str, list[int], tuple[str, str]]:
    """A yard's place or "", lots, and days, ISO."""
    if facts.lots and facts.yard.strip():
        raise Refusal(LOTS_AND_YARD, field="lots")
    first = read_iso_day(facts.first_day, "first_day")
    last = read_iso_day(facts.last_day, "last_day")
    if last and last < first:
        raise Refusal(RECALL_DAYS, field="last_day", last=say_day(last), first=say_day(first))
    if facts.yard.strip():
        return find_record(b.state, YARD, facts.yard)[0], [], (first, last)
    lots = [find_lot(b.state, code, field="lots") for code in facts.lots]
    if not lots:
        raise Refusal(NOTHING_RECALLED, field="lots")
    return "", sorted({lot.id for lot in lots}), ("", "")


def _note_customers(b: Booking, hold: Hold) -> None:
    """Who has some of what is called back, said at once."""
    have = customers_in(b.state, hold)
    names = [name_of(b.state, one) for one in have if class_of(one) == CUSTOMER]
    if names:
        b.note(CUSTOMERS_HAVE, who=few(names))
    if any(class_of(one) == GATE for one in have):
        b.note(AT_THE_GATE)
    if not have:
        b.note(NOBODY_HAS)


def scope_of(state: State, hold: Hold) -> set[int]:
    """All lots in the scope of a case: what its hold reaches, those cleared by name left out."""
    targets = targets_of(state, hold)
    return reach_of(hold, targets, state.descent(sorted(targets))) if targets else set()


def customers_in(state: State, hold: Hold) -> list[str]:
    """Places of customers, and days at the gate, with some of a scope, or that had some."""
    return sorted(
        {
            row.place
            for lot in scope_of(state, hold)
            for row in state.holdings(lot)
            if class_of(row.place) in (CUSTOMER, GATE)
        }
    )


def find_case(state: State, text: str, field: str = "recall", *, is_open: bool = True) -> Case:
    """A case by its code.

    Raises:
        Refusal: no such case; or it is closed, where an open one is wanted.
    """
    code = read_code(state, text, field)
    mark = state.mark(place(RECALL, str(code)), CASE)
    if mark is None or not isinstance(mark.value, Mapping):
        plain = code.lot if isinstance(code, JarCode) else code
        raise refuse_wrong(state, plain, text, "recall", field)
    case = case_from(state, str(code), mark.entry, mark.at_ms, mark.value)
    if is_open and case.is_closed:
        raise Refusal(RECALL_CLOSED, field=field, recall=case.code)
    return case


def case_from(state: State, code: str, entry: int, at_ms: int, value: Mapping[str, Json]) -> Case:
    """A case from its mark: its scope as it is now, what was cleared left out."""
    scope = value.get("scope", {})
    assert isinstance(scope, Mapping)
    subject = str(value.get("hold", "")) or place(RECALL, code)
    marks = [(mark.name, mark.value) for mark in state.marks(subject)]
    clears = [row for row in marks if row[0].startswith("cleared/")]
    is_closed = state.mark(place(RECALL, code), CLOSED) is not None
    return Case(code, entry, at_ms, value, hold_from(subject, scope, clears), is_closed)


def book_recall_notice(facts: TellConsignees, b: Booking) -> None:
    """A dated fact of the case for each who was told; all of them are kept."""
    case = find_case(b.state, facts.recall)
    if not facts.customers:
        raise Refusal(NOBODY_TOLD, field="customers")
    if not facts.how.strip():
        raise Refusal(HOW_TOLD, field="how")
    told = [_consignee(b, case, text, "customers") for text in facts.customers]
    check_once(told, "customers", lambda one: name_of(b.state, one))
    for customer in told:
        value = {
            "how": facts.how.strip(),
            "whom": facts.whom.strip(),
            "note": facts.note.strip(),
            "by": b.act.operator,
        }
        b.mark(case.subject, f"{TOLD}{key_of(customer)}/{b.entry_id}", value)


def _consignee(b: Booking, case: Case, text: str, field: str) -> str:
    customer = find_record(b.state, CUSTOMER, text, field)[0]
    if customer not in customers_in(b.state, case.hold):
        name = name_of(b.state, customer)
        raise Refusal(NOT_A_CUSTOMER_OF, field=field, customer=name, recall=case.code)
    return customer


def book_recall_answer(facts: AnswerRecall, b: Booking) -> None:
    """What they have, and what they destroyed with its proof."""
    case = find_case(b.state, facts.recall)
    customer = _consignee(b, case, facts.customer, "customer")
    name = name_of(b.state, customer)
    numbers = (facts.here_g, facts.here_jars, facts.destroyed_g, facts.destroyed_jars)
    for number in numbers:
        if number is not None and number < 0:
            raise Refusal(ANSWER_BELOW_NONE, field="here_g", number=number)
    is_destroyed = facts.destroyed_g > 0 or facts.destroyed_jars > 0
    if facts.here_g is None and facts.here_jars is None and not is_destroyed:
        raise Refusal(ANSWER_EMPTY, field="here_g", customer=name)
    if is_destroyed and not facts.proof.strip():
        raise Refusal(NO_PROOF, field="proof", customer=name)
    value = {
        "here_g": -1 if facts.here_g is None else facts.here_g,
        "here_jars": -1 if facts.here_jars is None else facts.here_jars,
        "destroyed_g": facts.destroyed_g,
        "destroyed_jars": facts.destroyed_jars,
        "proof": facts.proof.strip(),
        "passed_on": facts.passed_on.strip(),
        "note": facts.note.strip(),
        "by": b.act.operator,
    }
    b.mark(case.subject, f"{ANSWERED}{key_of(customer)}/{b.entry_id}", value)


def book_close_recall(facts: CloseRecall, b: Booking) -> None:
    """Release what the case holds; nobody is forgotten in silence."""
    case = find_case(b.state, facts.recall)
    check_signer(b)
    check_reason(facts.result, "result")
    second = check_second(b, facts.second)
    marks = [mark.name for mark in b.state.marks(case.subject) if mark.name.startswith(TOLD)]
    told = {place(CUSTOMER, name.split("/")[1]) for name in marks}
    have = [one for one in customers_in(b.state, case.hold) if class_of(one) == CUSTOMER]
    missing = [name_of(b.state, one) for one in have if one not in told]
    if missing and case.value.get("sort") != DRILL and not facts.despite.strip():
        raise Refusal(NOT_ALL_TOLD, field="despite", who=few(missing))
    value = {
        "result": facts.result.strip(),
        "disposal": facts.disposal.strip(),
        "despite": facts.despite.strip(),
        "by": b.act.operator,
    }
    b.mark(case.subject, CLOSED, value | second)
    if case.value.get("hold"):
        reason = f"{case.code} closed: {facts.result.strip()}"
        b.mark(case.hold.subject, "released", {"reason": reason, "by": b.act.operator} | second)
