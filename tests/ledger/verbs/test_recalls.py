"""A recall case: what it holds, who is told and answers, and how it ends."""

from typing import Any

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.quality import Clear
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
    customers_in,
    find_case,
    scope_of,
)
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View
from tests.support.books import mark, turned_down
from tests.support.houses import BuiltHouse


class Smoked(BuiltHouse):
    """Creek in one drum that went to Packer, and in one that is here; Hill in a third."""

    sent = here = other = ""


@pytest.fixture
def house() -> Smoked:
    house = Smoked()
    house.yard("Creek")
    house.yard("Hill")
    for tank in ("Tank 1", "Tank 2"):
        house.vessel(tank)
    for name in ("Packer", "Baker"):
        house.do(Register("customer", {"name": name}))
    house.load("Creek", 200_000, "Tank 1")
    house.sent = house.drum("Tank 1", 100_000)
    house.here = house.drum("Tank 1", 100_000)
    house.load("Hill", 100_000, "Tank 2")
    house.other = house.drum("Tank 2", 100_000)
    house.do(Dispatch("Packer", (DispatchLine(house.sent),)))
    return house


def opened(house: Smoked, **more: object) -> str:
    facts: dict[str, Any] = {"about": "smells of smoke", "yard": "Creek"} | more
    done = house.do(OpenRecall(**facts))
    return next(code for code in done.given if code[0] == "Q")


def notes_of(house: Smoked, **more: object) -> list[str]:
    facts: dict[str, Any] = {"about": "smells of smoke", "yard": "Creek"} | more
    return list(house.do(OpenRecall(**facts)).notes)


def scope(house: Smoked, code: str) -> set[str]:
    def ask(view: View) -> set[str]:
        lots = scope_of(view, find_case(view, code, is_open=False).hold)
        return {head.code for head in view.lot_heads(lots).values()}

    return house.house.ask(ask)


def test_one_entry_holds_all_that_is_in_scope(house: Smoked) -> None:
    code = opened(house, found="by the packer, 3 Aug", risk="none known")
    assert {house.sent, house.here} <= scope(house, code)
    assert house.other not in scope(house, code)
    send = Dispatch("Baker", (DispatchLine(house.here),))
    assert "is on hold through Creek" in turned_down(house, send)
    # What comes in later is in scope, too.
    later, _ = house.pull("Creek", 50_000)
    assert later in scope(house, code)


def test_opening_says_who_has_some(house: Smoked) -> None:
    assert notes_of(house)[0] == (
        "Customers have some of it: Packer. Agree with your authority whom to tell and by when, "
        "then note each as told."
    )
    house.do(Dispatch("gate", (DispatchLine(house.other),)))
    assert notes_of(house, yard="Hill") == [
        "Some went at the farm gate to people nobody knows: agree with your authority how the "
        "public is told."
    ]
    house.do(TakeBack("gate", house.other, "left open"))
    fresh, _ = house.pull("Hill", 10_000)
    assert notes_of(house, yard="", lots=(fresh,)) == [
        "No customer has any of it, as far as the books know."
    ]


def test_a_drill_holds_nothing(house: Smoked) -> None:
    code = opened(house, sort="drill", lots=(house.here,), yard="")
    house.do(Dispatch("Baker", (DispatchLine(house.here),)))
    assert scope(house, code) == {house.here}
    house.do(CloseRecall(code, "found in two minutes"))
    assert mark(house, f"recall/{code}", "closed")["by"]


def test_told_answered_and_closed(house: Smoked) -> None:
    code = opened(house)
    close = CloseRecall(code, "smoke from a burner; the burner is gone")
    assert turned_down(house, close, operator="") == (
        "Say who signs: scan a badge, or name a person who works here."
    )
    assert turned_down(house, close) == (
        "Not told yet: Packer. Tell them first, or close it by saying why they need not be."
    )
    house.do(TellConsignees(code, ("Packer",), "phone", "Mr Lund", "confirmed by letter"))
    house.do(AnswerRecall(code, "Packer", here_g=40_000, passed_on="nobody"))
    house.do(AnswerRecall(code, "Packer", here_g=0, destroyed_g=60_000, proof="two photographs"))
    house.do(close)
    house.do(Dispatch("Baker", (DispatchLine(house.here),)))
    assert turned_down(house, TellConsignees(code, ("Packer",), "phone")) == (
        f"{code} is closed. Open another case if more has come to light."
    )


def test_what_was_narrowed_out_is_cleared_by_name(house: Smoked) -> None:
    code = opened(house)
    clear = Clear(house.here, "Creek", "filled before the fire")
    house.do(clear)
    assert house.here not in scope(house, code)
    assert house.sent in scope(house, code)


def test_closing_may_be_taken_back(house: Smoked) -> None:
    code = opened(house, yard="Hill")
    done = house.do(CloseRecall(code, "nothing found"))
    house.do(Reverse(done.entries[0].id, "too early"))
    send = Dispatch("Baker", (DispatchLine(house.other),))
    assert "is on hold" in turned_down(house, send)
    house.do(CloseRecall(code, "nothing found"))


def test_who_had_some_and_brought_it_back_is_still_in_it(house: Smoked) -> None:
    house.do(TakeBack("Packer", house.sent, "smoke"))
    code = opened(house)
    have = house.house.ask(lambda view: customers_in(view, find_case(view, code).hold))
    assert len(have) == 1


def test_what_is_refused(house: Smoked) -> None:
    here = house.here
    both = OpenRecall("x", (here,), "Creek")
    days = OpenRecall("x", yard="Creek", first_day="2026-07-09", last_day="2026-07-01")
    said = {
        "Give the reason in a word or two.": OpenRecall(" ", (here,)),
        "Name the lots that are called back, or a yard and its days.": OpenRecall("x"),
        "Name lots or a yard, not both: open a second case for the other.": both,
        "joke is no kind of case. Choose recall, withdrawal or drill.": OpenRecall(
            "x", (here,), sort="joke"
        ),
        "The days end on 1 Jul 2026, before they begin on 9 Jul 2026. Correct them.": days,
    }
    for sentence, facts in said.items():
        assert turned_down(house, facts) == sentence
    code = opened(house)
    said = {
        "Name the customers who were told.": TellConsignees(code, (), "phone"),
        "Say how they were told: phone, letter, e-mail.": TellConsignees(code, ("Packer",), " "),
        f"By the books Baker has none of {code}. Look at the dispatch notes, or name who has.": (
            TellConsignees(code, ("Baker",), "phone")
        ),
        "Packer stands twice on this list. Leave it there once, with its whole amount.": (
            TellConsignees(code, ("Packer", "packer"), "phone")
        ),
        "Say what Packer has on hand still, 0 where nothing, and what was destroyed.": (
            AnswerRecall(code, "Packer")
        ),
        "-1 cannot be on hand: type 0 or more.": AnswerRecall(code, "Packer", here_g=-1),
        "Say how it is proved that Packer destroyed it: a note, photographs.": (
            AnswerRecall(code, "Packer", destroyed_jars=3)
        ),
    }
    for sentence, facts in said.items():
        assert turned_down(house, facts) == sentence
