"""Unknown honey that a load may be."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.unknown import unknown_since
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from tests.support.books import refusal_of, turned_down
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


def test_a_load_dated_before_unknown_honey_is_offered_as_an_amendment() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    vessel = f"vessel/{house.vessel('Tank')}"
    _, tag = house.pull("Creek", 100_000)
    unknown = house.do(Fill("Tank", Weight(net_g=90_000)), at_min=60).codes[0]

    def since(at_min: int) -> list[str]:
        at_ms = START_MS + at_min * MINUTE_MS
        return house.house.ask(lambda view: [r.code for r in unknown_since(view, vessel, at_ms)])

    assert (since(60), since(61)) == ([unknown], [])
    assert turned_down(house, Load(tag, "Tank"), at_min=50) == (
        f"{unknown} stands for unknown honey in Tank since then. If it was this pallet, amend "
        f"{unknown} to {tag} instead (amend {unknown} --pallet {tag}). If not, say that this is a "
        "load of its own."
    )
    assert refusal_of(house, Load(tag, "Tank"), at_min=50).offers == (unknown,)
    house.do(Load(tag, "Tank", apart=True), at_min=50)
