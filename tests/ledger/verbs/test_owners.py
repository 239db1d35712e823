"""Other people's honey: runs of one owner, pooled runs, and what each owner gets."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, WetOut
from honeyledger.ledger.verbs.owners import Pool, Settle
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, mark, turned_down
from tests.support.houses import BuiltHouse

OWN_HIVES = (
    "From a pooled run nobody gets the honey of their own hives alone: say so to the owners."
)


@pytest.fixture
def house() -> BuiltHouse:
    """A line that feeds a tank; Wendt and Perrin have their supers extracted here."""
    house = BuiltHouse()
    for name in ("Creek", "Hill", "Moor"):
        house.yard(name)
    house.vessel("Line", sort="line")
    house.vessel("Tank", fed_by="Line")
    for name in ("Wendt", "Perrin"):
        house.do(Register("customer", {"name": name}))
    return house


def _run(house: BuiltHouse, owner: str = "") -> str:
    return code_in(house.do(OpenRun("Line", owner=owner)), "R")


def _pull(house: BuiltHouse, yard: str, owner: str, grams: int, count: int) -> tuple[str, str]:
    """Supers of 6 kg each with so much honey: (pull's code, pallet tag)."""
    facts = Receive((Line(yard, count, owner=owner),), gross_g=grams + count * 6_000, tare_g=0)
    done = house.do(facts)
    return done.codes[0], code_in(done, "G")


def _owner(house: BuiltHouse, code: str) -> object:
    value = mark(house, code, "owner")
    return value and value["owner"]


def test_a_run_is_of_one_owner_and_so_is_what_comes_out_of_it(house: BuiltHouse) -> None:
    run = _run(house)
    _, tag = _pull(house, "Creek", "wendt", 150_000, 10)
    house.do(Load(tag, "Line"), run=run)
    others, tag = _pull(house, "Hill", "Perrin", 150_000, 10)
    assert turned_down(house, Load(tag, "Line"), run=run) == (
        f"{others} is Perrin's, and {run} is Wendt's. Open another run for it, or say that this "
        "run is pooled by agreement (pool)."
    )
    ours, tag = _pull(house, "Moor", "", 150_000, 10)
    assert turned_down(house, Load(tag, "Line"), run=run).startswith(
        f"{ours} is Test House's, and {run} is Wendt's."
    )
    drum = house.do(Fill("Tank", Weight(net_g=100_000)), run=run).codes[-1]
    barrel = house.do(Cappings("Line", 10_000), run=run).codes[0]
    assert _owner(house, drum) == _owner(house, barrel) == "customer/wendt"


def test_supers_of_an_owner_do_not_go_into_the_houses_own_run(house: BuiltHouse) -> None:
    run = _run(house)
    _, tag = _pull(house, "Moor", "", 150_000, 10)
    house.do(Load(tag, "Line"), run=run)
    theirs, tag = _pull(house, "Creek", "Wendt", 150_000, 10)
    assert turned_down(house, Load(tag, "Line"), run=run).startswith(
        f"{theirs} is Wendt's, and {run} is Test House's."
    )
    said = _run(house, owner="house")
    assert turned_down(house, Load(tag, "Line"), run=said).startswith(f"{theirs} is Wendt's")


def test_a_pooled_run_is_shared_by_weight_to_the_gram(house: BuiltHouse) -> None:
    """Wendt 150.0 kg in 10 boxes, 3.0 kg left in them; Perrin 90.0 kg in 6, 2.1 kg left."""
    run = _run(house)
    assert house.do(Pool("both agreed on the phone", run)).notes == (OWN_HIVES,)
    wendts, tag = _pull(house, "Creek", "Wendt", 150_000, 10)
    house.do(Load(tag, "Line"), run=run)
    perrins, tag = _pull(house, "Hill", "Perrin", 90_000, 6)
    house.do(Load(tag, "Line"), run=run)
    first = house.do(Fill("Tank", Weight(net_g=120_000)), run=run).codes[-1]
    second = house.do(Fill("Tank", Weight(net_g=85_001)), run=run).codes[-1]
    house.do(Cappings("Line", 20_000), run=run)
    assert _owner(house, first) is None
    house.do(WetOut(10, gross_g=63_000, pull=wendts), run=run)
    house.do(WetOut(6, gross_g=38_100, pull=perrins), run=run)
    house.do(CloseRun(run, (Heel("Tank", 5_000),)))
    done = house.do(Settle(run, 100, ((first, "wendt"), (second, "Perrin"))))
    # 147.0 and 87.9 kg taken out of 210.001 kg given (two drums and the heel).
    kept = {row["owner"]: row for row in mark(house, f"run/{run}", "settled")["parts"]}
    wendt, perrin = kept["customer/wendt"], kept["customer/perrin"]
    assert (wendt["taken_g"], perrin["taken_g"]) == (147_000, 87_900)
    assert wendt["honey_g"] + perrin["honey_g"] == 210_001
    assert wendt["honey_g"] == 131_418  # 210001 * 147000 / 234900 = 131,418.3
    assert wendt["cappings_g"] + perrin["cappings_g"] == 20_000
    assert done.notes[0] == (
        "Wendt: 10 supers, 131.4 kg of honey by weight; 13.1 kg kept by the house, 118.3 kg due; "
        "12.5 kg of cappings."
    )
    assert _owner(house, first) == "customer/wendt"
    assert _owner(house, second) == "customer/perrin"
    house.do(Reverse(done.entries[0].id, "the scale was off"))
    assert _owner(house, first) is None


def test_without_all_weights_boxes_count(house: BuiltHouse) -> None:
    run = _run(house)
    house.do(Pool("agreed", run))
    for yard, owner, grams, count in (("Creek", "Wendt", 150_000, 10), ("Hill", "", 90_000, 5)):
        _, tag = _pull(house, yard, owner, grams, count)
        house.do(Load(tag, "Line"), run=run)
    house.do(Fill("Tank", Weight(net_g=210_000)), run=run)
    house.do(CloseRun(run))
    assert house.do(Settle(run)).notes == (
        "Wendt: 10 supers, 140.0 kg of honey by number of boxes; 0.0 kg kept by the house, "
        "140.0 kg due; 0.0 kg of cappings.",
    )
    parts = mark(house, f"run/{run}", "settled")["parts"]
    assert [(row["owner"], row["honey_g"]) for row in parts] == [
        ("customer/wendt", 140_000),
        ("house", 70_000),
    ]


def test_what_they_refuse(house: BuiltHouse) -> None:
    run = _run(house)
    said = [
        turned_down(house, Pool("", run)),
        turned_down(house, Settle(run)),
        turned_down(house, Settle()),
    ]
    house.do(Pool("agreed", run))
    said.append(turned_down(house, Pool("agreed", run)))
    house.do(CloseRun(run))
    said.append(turned_down(house, Settle(run)))
    run = _run(house)
    _, tag = _pull(house, "Creek", "Wendt", 150_000, 10)
    house.do(Load(tag, "Line"), run=run)
    drum = house.do(Fill("Tank", Weight(net_g=140_000)), run=run).codes[-1]
    house.do(CloseRun(run))
    said.append(turned_down(house, Settle(run, 1001)))
    said.append(turned_down(house, Settle(run, drums=((drum, "Perrin"),))))
    settled = house.do(Settle(run)).entries[0].id
    said.append(turned_down(house, Settle(run)))
    first = mark(house, f"run/{run}", "opened") and said[3].split(" ")[0]
    assert said == [
        "Say what was agreed, and by whom, in a word or two.",
        f"{first} is still open: close it, then settle it.",
        "That is not a run of this house. Open a run first.",
        f"{first} is pooled already. Nothing was changed.",
        f"Nothing was loaded in {first}: there is nobody to settle with.",
        "1001 of a thousand cannot be kept by the house: type 0 to 1000.",
        f"Perrin had no supers in {run}. Its owners are Wendt.",
        f"{run} was settled with entry {settled}. Reverse that entry first, if it was wrong.",
    ]
