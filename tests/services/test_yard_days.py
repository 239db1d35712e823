"""A yard by its dates, as rows."""

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.yards import FeedYard, SupersOn
from honeyledger.services.yard_days import yard_days
from tests.support.houses import BuiltHouse


def test_pulls_stand_among_what_was_done_and_reversed_ones_are_left_out() -> None:
    house = BuiltHouse()
    code = house.yard("Creek")
    house.do(SupersOn("Creek", 24, "2026-06-01"))
    pull = house.do(Receive((Line("Creek", 20, pulled="2026-07-20"),))).codes[0]
    wrong = house.do(Receive((Line("Creek", 30, pulled="2026-07-21"),))).entries[0].id
    house.do(Reverse(wrong, "counted twice"))
    fed = house.do(FeedYard("Creek", "syrup", "2026-07-22", supers_on=False)).entries[0].id
    house.do(Reverse(fed, "another yard"))
    found = house.house.ask(lambda view: yard_days(view, "creek"))
    assert (found.code, found.name) == (code, "Creek")
    assert [(row.day, row.kind, row.sentence) for row in found.days] == [
        ("2026-06-01", "supers on", "24 supers put on."),
        ("2026-07-20", "pull", f"Pulled 20 supers as {pull}."),
    ]
