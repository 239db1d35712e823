"""The page of a call back answers for any code, and lists complaints with their traces."""

from honeyledger.ledger.verbs.jars import Complain
from honeyledger.services.recall_page import RecallPage, recall_page
from tests.support.houses import BuiltHouse


def _asked(built: BuiltHouse, text: str) -> RecallPage:
    return built.house.ask(lambda view: recall_page(view, built.now_ms, text))


def _built() -> tuple[BuiltHouse, str]:
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    for name in ("Long Field", "Mill Lane", "Creek", "Hill", "Dell"):
        built.load(built.yard(name), 100_000, tank)
    return built, built.drum(tank, 300_000)


def test_a_lot_has_its_scope_and_its_trace_a_yard_only_its_scope() -> None:
    built, drum = _built()
    page = _asked(built, drum)
    assert page.scope is not None
    assert page.trace is not None
    assert (page.scope.code, page.trace.trace.code, page.asked) == (drum, drum, drum)
    yard = _asked(built, "Long Field")
    assert yard.scope is not None
    assert yard.scope.is_source
    assert yard.trace is None
    assert yard.problem == ""


def test_a_code_that_is_none_is_said_and_none_in_hand_is_nothing() -> None:
    built, _ = _built()
    page = _asked(built, "D26-9999-X")
    assert page.scope is None
    assert "D26-9999-X" in page.problem
    empty = _asked(built, "")
    assert (empty.scope, empty.trace, empty.problem) == (None, None, "")
    assert empty.unit == "kg"


def test_complaints_come_with_the_trace_of_what_they_are_about() -> None:
    built, drum = _built()
    first = built.do(Complain(drum, "smells of smoke", "Ms Orla")).entries[0].id
    built.do(Complain(drum, "crystals"))
    built.do(Complain(drum, "smells of smoke", "Ms Orla", "", "smoker fuel", first))
    page = _asked(built, "")
    assert [(line.row.what, line.is_open) for line in page.complaints] == [
        ("crystals", True),
        ("smells of smoke", False),
    ]
    assert page.complaints[0].sources.endswith(" +2"), "three of five yards are named"
    found = page.complaint(f" {first} ")
    assert found is not None
    assert found.answer == "smoker fuel"
    assert page.complaint("none") is None
