"""A case's scope and amounts against networkx and the postings, of the sample and by hand."""

from pathlib import Path

import networkx
import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.ledger.places import CUSTOMER, GATE, INSIDE, class_of
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.quality import Clear, Sample
from honeyledger.ledger.verbs.recalls import (
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.house import House, Said
from honeyledger.services.recall_rows import EXPLAIN_FROM, WARN_FROM, RecallCase
from honeyledger.services.recalls import case_heads, recall_case
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse
from tests.support.sample import sample_house


def case_of(house: House, code: str) -> RecallCase:
    return house.ask(lambda view: recall_case(view, SAMPLE_NOW_MS, code))


def opened(house: House, facts: OpenRecall) -> str:
    return next(code for code in house.record(facts, Said()).given if code[0] == "Q")


def by_networkx(view: View, yard: str) -> dict[str, int]:
    """What is here and what was sent of all that came of a yard, from the postings alone."""
    entries = view.entries()
    undone = {entry.reverses for entry in entries if entry.reverses}
    graph = networkx.DiGraph()
    starts = set()
    sums: dict[tuple[int, str], int] = {}
    for entry in entries:
        for row in entry.postings:
            where = (row.lot, row.place)
            sums[where] = sums.get(where, 0) + row.grams
        if entry.id in undone or entry.reverses:
            continue
        for origin in entry.origins:
            graph.add_edge(origin.parent, origin.child)
        starts |= {row.lot for row in entry.postings if row.place == yard and row.grams < 0}
    graph.add_nodes_from(starts)
    scope = set(starts).union(*(networkx.descendants(graph, lot) for lot in starts))
    here = sent = 0
    for (lot, where), grams in sums.items():
        if lot in scope:
            here += grams if class_of(where) in INSIDE else 0
            sent += grams if class_of(where) in (CUSTOMER, GATE) else 0
    return {"lots": len(scope), "here": here, "sent": sent}


@pytest.mark.parametrize("name", ["Fennimark", "Harrow's Elbow"])
def test_a_yard_of_the_sample_equals_the_postings(tmp_path: Path, name: str) -> None:
    house = sample_house(tmp_path)
    code = opened(house, OpenRecall("a treatment too late", yard=name))
    case = case_of(house, code)
    with house.store.reading() as view:
        yard = next(
            mark.subject
            for mark in view.marked("record", "yard/")
            if mark.value["name"] == name  # type: ignore[index,call-overload]
        )
        voided = any(entry.facts.get("effects", {}).get("voids") for entry in view.entries())  # type: ignore[union-attr]
        exact = by_networkx(view, yard)
    house.store.close()
    assert (case.here_g, case.shipped_g) == (exact["here"], exact["sent"]) or voided
    assert len(case.lots) == exact["lots"] or voided
    for lot in case.lots:
        parts = (lot.here_g, lot.shipped_g, lot.sampled_g, lot.destroyed_g, lot.other_g)
        assert lot.made_g == sum(parts) + lot.went_on_g + lot.missing_g
    assert sum(one.has_g for one in case.consignees) == case.shipped_g
    assert name in case.upstream
    # What is not the yard's own pull says by which lots it is in, the first of them the pull.
    assert all(lot.why or lot.noun == "pull" for lot in case.lots)


@pytest.fixture
def smoked() -> BuiltHouse:
    """300 kg of Creek: 100 kg sent to Packer, the rest in two drums."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank 1")
    house.do(Register("customer", {"name": "Packer", "place": "Ostwick"}))
    house.do(Register("operator", {"name": "Ada Quill"}))
    house.load("Creek", 300_000, "Tank 1")
    return house


def test_a_case_from_its_first_hour_to_its_end(smoked: BuiltHouse) -> None:
    house = smoked
    sent, here, third = (house.drum("Tank 1", 100_000) for _ in range(3))
    note = next(
        c for c in house.do(Dispatch("Packer", (DispatchLine(sent),))).given if c[0] == "N"
    )
    house.do(Sample((here,), 500))
    code = next(
        c
        for c in house.do(OpenRecall("smoke", yard="Creek", found="by Packer", risk="none")).given
        if c[0] == "Q"
    )
    case = case_of(house.house, code)
    assert (case.stands_on, case.upstream) == ("Creek, all its pulls", ("Creek",))
    assert (case.here_g, case.shipped_g, case.missing_g) == (199_500, 100_000, 0)
    assert (case.accounted, case.to_tell, case.told) == (10_000, 1, 0)
    packer = case.consignees[0]
    assert (packer.name, packer.lots, packer.has_g) == ("Packer", (sent,), 100_000)
    assert packer.details == {"place": "Ostwick"}
    assert [paper for paper, _ in packer.notes] == [note]
    drum = next(lot for lot in case.lots if lot.code == here)
    assert sum(lot.sampled_g for lot in case.lots) == drum.went_on_g == 500
    assert [step[0] for step in drum.why] == ["S", "T"]
    house.do(TellConsignees(code, ("Packer",), "phone", "Mr Lund"))
    house.do(TakeBack("Packer", sent, "smoke", net_g=60_000))
    house.do(AnswerRecall(code, "Packer", here_g=5_000, destroyed_g=35_000, proof="photographs"))
    house.do(Discard(third, "smoke"))
    house.do(Clear(here, "Creek", "filled before the fire"))
    case = case_of(house.house, code)
    packer = case.consignees[0]
    assert (packer.has_g, packer.back_g, packer.destroyed_g) == (40_000, 60_000, 35_000)
    assert (packer.open_g, packer.here_g, packer.here_pieces) == (5_000, 5_000, None)
    assert (packer.told[0].how, packer.told[0].whom) == ("phone", "Mr Lund")
    assert (case.sent_g, case.recovered_g) == (100_000, 95_000)
    assert (case.told, case.answered) == (1, 1)
    assert here not in [lot.code for lot in case.lots]
    assert [(row.code, row.reason) for row in case.narrowed] == [(here, "filled before the fire")]
    assert next(lot for lot in case.lots if lot.code == third).destroyed_g == 100_000
    house.do(CloseRecall(code, "burner thrown out", "a note of the waste works"))
    case = case_of(house.house, code)
    assert (case.is_closed, case.result) == (True, "burner thrown out")
    assert case.disposal == "a note of the waste works"
    assert [step.what for step in case.timeline] == [
        "Opened: smoke",
        "Told Packer by phone",
        "Packer answered",
        f"{here} taken out of the scope: filled before the fire",
        "Closed: burner thrown out",
    ]
    # The scope of a closed case stays what it was.
    assert {row.code for row in case.narrowed} == {here}


def test_a_house_may_set_from_how_much_it_warns_and_explains(smoked: BuiltHouse) -> None:
    code = opened(smoked.house, OpenRecall("smoke", yard="Creek", sort="drill"))
    usual = case_of(smoked.house, code)
    assert (usual.warn_from, usual.explain_from) == (WARN_FROM, EXPLAIN_FROM) == (200, 500)
    own = {"missing_warn_permille": 10, "missing_explain_permille": 35}
    smoked.do(Register("house", {"name": "Test House", "zone": "UTC", **own}))
    strict = case_of(smoked.house, code)
    assert (strict.warn_from, strict.explain_from) == (100, 350)


def test_the_list_has_the_newest_first(smoked: BuiltHouse) -> None:
    drum = smoked.drum("Tank 1", 100_000)
    first = smoked.do(OpenRecall("smoke", (drum,), sort="drill"))
    smoked.wait(5)
    smoked.do(OpenRecall("glass", yard="Creek"))
    heads = smoked.house.ask(case_heads)
    assert [(head.about, head.sort, head.is_closed) for head in heads] == [
        ("glass", "recall", False),
        ("smoke", "drill", False),
    ]
    assert heads[1].code in first.given


def test_no_such_case(smoked: BuiltHouse) -> None:
    drum = smoked.drum("Tank 1", 100_000)
    with pytest.raises(Refusal) as refused:
        case_of(smoked.house, drum)
    assert drum in str(refused.value)
