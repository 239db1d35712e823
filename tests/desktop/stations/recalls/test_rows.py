"""The page's tables and messages, from a case made by hand."""

from dataclasses import replace
from datetime import date

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.recalls.rows import (
    case_columns,
    heading,
    sort_words,
    told,
    who_columns,
    who_state,
)
from honeyledger.domain.moments import Moment
from honeyledger.ledger.verbs.recalls import SORTS
from honeyledger.services.drills import DrillDue
from honeyledger.services.recall_rows import (
    CaseHead,
    Consignee,
    Notice,
    RecallCase,
    ScopeHead,
    ScopeLot,
    Step,
)
from honeyledger.services.recalls_page import RecallsPage

AT = Moment(1_784_882_400_000, 0, "UTC")
LOT = ScopeLot("D26-0001-C", "drum", "", (), 1_000, 500, 480, 0, 0, 0, 0, 20, 0, 0)
WHO = Consignee(
    *("packer", "Packer", {"phone": "555"}, ("D26-0001-C",), 480, 0, 0, (), ()),
    *(None, None, None, 0, 0, "", ""),
)
CASE = RecallCase(
    *("Q26-0001-X", "smoke", "", "", "recall", AT, "Ann", "House", "kg", date(2026, 7, 24)),
    *("Creek", ("Creek",), (LOT,), (), (WHO,), (), False, "", "", "", 9, "ab"),
)
HEAD = CaseHead("Q26-0001-X", "smoke", "recall", AT, False, 1, 0)
PAGE = RecallsPage(
    "ledger", "kg", "UTC", date(2026, 7, 24), (HEAD,), CASE, (), (), DrillDue(None, True)
)


def test_messages_say_what_stands_open() -> None:
    case, accounted, who, drill = told(PAGE)
    assert case.mark is Mark.HOLD
    assert case.text == "1 lot in scope: 0.5 kg here, 0.5 kg with customers. Stands on Creek."
    assert accounted.mark is Mark.WARNING
    assert accounted.lead == "98.0 % accounted for; 0.0 kg are not: look for it."
    assert who.lead.startswith("0 of 1 told, 0 answered;")
    assert drill.lead == "A drill is due."
    lost = replace(CASE, lots=(replace(LOT, missing_g=200),))
    assert told(replace(PAGE, case=lost))[1].mark is Mark.REFUSED
    strict = replace(CASE, explain_from=200)
    assert told(replace(PAGE, case=strict))[1].mark is Mark.REFUSED
    easy = replace(CASE, warn_from=300)
    assert told(replace(PAGE, case=easy))[1].mark is Mark.READY
    whole = replace(CASE, lots=(replace(LOT, missing_g=0),))
    assert told(replace(PAGE, case=whole))[1].lead == "100.0 % accounted for."
    due = replace(PAGE, case=None, drill=DrillDue(date(2027, 7, 24), False))
    assert [one.lead for one in told(due)] == ["The next drill is due on 24 Jul 2027."]


def test_the_first_answer_says_what_is_in_it_and_that_the_rest_follows() -> None:
    scope = ScopeHead("Q26-0001-X", "smoke", "recall", False, "Creek", 3, 500, 480)
    first = replace(PAGE, case=None, scope=scope, heads=(replace(HEAD, customers=None),))
    case, follows, _ = told(first)
    assert case.mark is Mark.HOLD
    assert case.text == "3 lots in scope: 0.5 kg here, 0.5 kg with customers. Stands on Creek."
    assert follows.lead == "Who has it, and what is missing, follows."
    cells = {column.key: column.text(first.heads[0]) for column in case_columns()}
    assert cells["told"] == "0"


def test_a_closed_case_says_how_it_ended_and_a_drill_what_was_looked_up_by_hand() -> None:
    ended = Moment(AT.at_ms + 42 * 60_000, 0, "UTC")
    shut = replace(
        CASE,
        is_closed=True,
        closed_by="Ann",
        result="the phone numbers",
        disposal="put them on record",
        timeline=(Step(AT, "Opened", "Ann"), Step(ended, "Closed", "Ann")),
    )
    drill = told(replace(PAGE, case=replace(shut, sort="drill")))[1]
    assert drill.lead == "The drill took 42 minutes."
    assert drill.text == "Looked up by hand: the phone numbers. put them on record"
    recall = told(replace(PAGE, case=shut))[1]
    assert (recall.lead, recall.text) == (
        "Closed by Ann: the phone numbers.",
        "put them on record",
    )


def test_headings_and_columns() -> None:
    assert heading(PAGE) == "One case is open"
    assert heading(replace(PAGE, heads=(HEAD, HEAD))) == "2 cases are open"
    assert heading(replace(PAGE, heads=(replace(HEAD, is_closed=True),))) == "No case is open"
    assert set(sort_words()) == set(SORTS)
    cells = {column.key: column.text(HEAD) for column in case_columns()}
    assert (cells["state"], cells["told"]) == ("open", "0 of 1")
    figures = {column.key: column.text(WHO) for column in who_columns("kg")}
    assert (figures["has_g"], figures["here_g"]) == ("0.5", "")


def test_how_far_each_is() -> None:
    notice = Notice(1, AT, "Ann", "phone", "", "")
    assert who_state(WHO) == "not told"
    assert who_state(replace(WHO, told=(notice,))) == "told"
    assert who_state(replace(WHO, told=(notice,), answered=AT)) == "answered"
    assert who_state(replace(WHO, key="")) == "nobody known"


def test_a_drill_tells_nobody_and_alarms_nobody() -> None:
    notice = Notice(1, AT, "Ann", "phone", "", "")
    case = replace(CASE, sort="drill")
    said = {message.lead: message.mark for message in told(replace(PAGE, case=case))}
    assert said["A drill tells nobody: 1 customer would be told."] is Mark.NOTE
    (state,) = [one for one in who_columns("kg", is_drill=True) if one.key == "state"]
    assert (state.text(WHO), state.cell(WHO).mark) == ("drill", Mark.NOTE)
    asked = replace(WHO, told=(notice,))
    assert (state.text(asked), state.cell(asked).mark) == ("told", Mark.WAITING)
    assert state.cell(replace(WHO, key="")).mark is Mark.WARNING
    (real,) = [one for one in who_columns("kg") if one.key == "state"]
    assert real.cell(WHO).mark is Mark.WARNING
