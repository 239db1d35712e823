"""The inspector's pack: what stands in it for a jar of the sample, and what does not."""

from pathlib import Path

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.services.inspection import AROUND_MS, Inspection, inspection
from honeyledger.services.tracing import trace_back
from tests.support.sample import code, sample_house


@pytest.fixture(scope="module")
def pack(tmp_path_factory: pytest.TempPathFactory) -> Inspection:
    house = sample_house(tmp_path_factory.mktemp("inspected"))
    found = house.ask(lambda view: inspection(view, SAMPLE_NOW_MS, code("bottling 1")))
    house.store.close()
    return found


def test_it_says_where_from_and_how_it_was_made(pack: Inspection, tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    trace = house.ask(lambda view: trace_back(view, pack.lot))
    customers = house.ask(
        lambda view: [str(m.value["name"]) for m in view.marked("record", "customer/")]  # type: ignore[index,call-overload]
    )
    house.store.close()
    assert pack.sources == trace.ancestors
    named = {row.name for row in pack.sources if row.share}
    assert {row.yard for row in pack.yards} == named
    assert {row.about for row in pack.checks} >= {"Drum scale", "Sieve 400"}
    assert "Line A, Sump, Settling tank" in {row.about for row in pack.washes}
    made_ms = pack.made.at_ms
    for row in (*pack.washes, *pack.checks):
        assert row.at.at_ms <= made_ms + AROUND_MS
    told = " ".join(str(row.sentence) for row in pack.history)
    assert "Bottled" in told
    assert not [name for name in customers if name in told]


def test_no_such_jar(tmp_path: Path) -> None:
    house = sample_house(tmp_path)
    with pytest.raises(Refusal):
        house.ask(lambda view: inspection(view, SAMPLE_NOW_MS, "J26-9999-K"))
    house.store.close()
