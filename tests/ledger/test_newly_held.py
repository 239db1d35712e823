"""What an amendment puts under a hold is said, and who has some of it already."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, turned_down
from tests.support.houses import BuiltHouse


def _house() -> BuiltHouse:
    house = BuiltHouse()
    for yard in ("Creek", "Hill"):
        house.yard(yard)
    house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    for name in ("Corner Shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def test_a_yard_under_a_hold_says_what_is_held_and_who_has_of_it() -> None:
    house = _house()
    pull = house.load("Creek", 600_000, "Tank 1")
    house.do(PutOnHold("Hill", "smoke", first_day="2026-07-01", last_day="2026-07-31"))
    drum, sold = house.drum("Tank 1", 290_000), house.drum("Tank 1", 200_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 100))
    house.do(Dispatch("Packer", (DispatchLine(sold),)))
    house.do(Dispatch("Corner Shop", (DispatchLine(jars, jars=30),)))
    house.do(Dispatch("gate", (DispatchLine(jars, jars=2),)))
    done = house.do(Amend(pull, "Y41 typed for Y14", yard="Hill"))
    (fill,) = {row.code for row in house.back(drum).lots if row.kind == "T"}
    assert done.notes == (
        f"On hold from now on through Hill (smoke): {fill}, {drum}, {jars}. Put it aside.",
        f"Of what is held now, Packer has 200.0 kg of {sold}: tell them, and decide by name "
        "whether it comes back, as your local code has it.",
        f"Of what is held now, Corner Shop has 30 jars of {jars}: tell them, and decide by name "
        "whether it comes back, as your local code has it.",
        f"Of what is held now, the farm gate of 24 Jul 2026 has 2 jars of {jars}: tell them, and "
        "decide by name whether it comes back, as your local code has it.",
    )
    assert turned_down(house, Dispatch("Packer", (DispatchLine(drum),))).startswith(
        f"{drum} is on hold through Hill, by way of {pull}, {fill}: smoke."
    )
    again = house.do(Amend(pull, "no, it was right", yard="Creek"))
    assert again.notes == ()  # it was held before, and is still


def test_a_new_hold_says_who_has_some_already_and_how_much() -> None:
    house = _house()
    pull = house.load("Creek", 600_000, "Tank 1")
    sold, other = house.drum("Tank 1", 150_000), house.drum("Tank 1", 100_000)
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(jars, 100))
    assert house.do(PutOnHold("Hill", "smoke")).notes == (), "nothing was pulled there"
    house.do(Dispatch("Packer", (DispatchLine(sold), DispatchLine(other))))
    assert house.do(PutOnHold(jars, "wrong label")).notes == (), "all of them are here"
    house.do(Release(jars, "the label was right"))
    house.do(Dispatch("Corner Shop", (DispatchLine(jars, jars=30),)))
    house.do(Dispatch("gate", (DispatchLine(jars, jars=2),)))
    said = (
        "Some of it is sold already, to 3: Packer (250.0 kg), Corner Shop (30 jars), the farm "
        "gate of 24 Jul 2026 (2 jars). Tell them, and decide by name whether it comes back, as "
        "your local code has it."
    )
    assert house.do(PutOnHold("Creek", "strips left in")).notes == (said,)
    assert house.do(PutOnHold(pull, "smoke")).notes == (said,)


def test_days_that_do_not_fit_hold_nothing() -> None:
    house = _house()
    pull = house.load("Creek", 300_000, "Tank 1")
    house.do(PutOnHold("Hill", "smoke", first_day="2026-08-01"))
    assert house.do(Amend(pull, "wrong yard", yard="Hill")).notes == ()


def test_a_load_amended_into_another_vessel_takes_its_hold_along() -> None:
    house = _house()
    code, tag = house.pull("Creek", 300_000)
    load = house.do(Load(tag, "Tank 1")).entries[0].id
    house.load("Hill", 300_000, "Tank 2")
    drum, held = house.drum("Tank 2", 200_000), house.drum("Tank 1", 200_000)
    house.do(PutOnHold(code, "treated"))
    done = house.do(Amend(load=load, vessel="Tank 2", reason="wrong tank"))
    (fill,) = {row.code for row in house.back(drum).lots if row.kind == "T"}
    assert done.notes[-1] == (
        f"On hold from now on through {code} (treated): {fill}, {drum}. Put it aside."
    )
    assert held not in done.notes[-1]


def test_what_was_cleared_is_held_again_where_something_new_came_upstream() -> None:
    house = _house()
    pull = house.load("Creek", 300_000, "Tank 1")
    house.load("Hill", 100_000, "Tank 1")
    number = str(house.do(PutOnHold("Hill", "smoke")).entries[0].id)
    facts = Fill("Tank 1", Weight(net_g=290_000), despite_hold="to be tested")
    drum = next(code for code in house.do(facts).codes if code[0] == "D")
    house.do(Clear(drum, number, "none found"))
    (note,) = house.do(Amend(pull, "wrong yard", yard="Hill")).notes
    assert drum in note
    assert "through Hill (smoke)" in note
