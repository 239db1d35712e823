"""The page of recalls: the newest open case first, another where it is wanted."""

from honeyledger.ledger.verbs.recalls import CloseRecall, OpenRecall
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recalls_page import RecallsPage, recalls_page
from tests.support.houses import BuiltHouse


def test_which_case_is_in_hand() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Creek", 100_000, "Tank 1")
    drum = house.drum("Tank 1", 50_000)

    def page(wanted: str = "") -> RecallsPage:
        return house.house.ask(lambda view: recalls_page(view, house.now_ms, wanted))

    assert page().case is None
    first = house.do(OpenRecall("smoke", (drum,))).given[0]
    house.wait(5)
    second = house.do(OpenRecall("glass", yard="Creek")).given[0]
    found = page().case
    assert found is not None
    assert found.code == second
    taken = page(first).case
    assert taken is not None
    assert taken.code == first
    house.do(CloseRecall(second, "nothing found"))
    left = page().case
    assert left is not None
    assert left.code == first
    assert [head.code for head in page().open_ones] == [first]
    assert [row.name for row in page().people] == ["Ada Quill"]

    def first_of(code: str) -> RecallsPage:
        return house.house.ask(lambda view: recalls_page(view, house.now_ms, code, first=True))

    for code in (first, second):
        soon, whole = first_of(code), page(code)
        scope, case = soon.scope, whole.case
        assert soon.case is None
        assert whole.scope is None
        assert scope is not None
        assert case is not None
        assert [head.customers for head in soon.heads] == [None, None]
        assert (scope.code, scope.about, scope.is_closed) == (
            case.code,
            case.about,
            case.is_closed,
        )
        assert (scope.lots, scope.stands_on) == (len(case.lots), case.stands_on)
        assert (scope.here_g, scope.shipped_g) == (case.here_g, case.shipped_g)
