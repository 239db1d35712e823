"""The sample season adds up: the crop, the house, the jars, and the books as a whole.

Figures are those of the season as it was designed (common practice, no source), with the room
that chance needs.
"""

from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest

from honeyledger.exchange.season import SAMPLE_NOW_MS
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import FILLING, PALLET, YARD, place
from honeyledger.ledger.run_balance import balance_of
from honeyledger.services.tracing import trace_back, trace_forward
from tests.support.sample import Season, code, said, season_read, tonnes, whole


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Season]:
    with season_read(tmp_path_factory.mktemp("season")) as read:
        yield read


def about(figure: float, percent: float) -> Any:
    return pytest.approx(figure, rel=percent / 100)


# The crop.


def test_the_supers_that_came(season: Season) -> None:
    pulls = season.lots("S", "receive")
    boxes: Counter[str] = Counter()
    for pull in pulls:
        boxes[str(pull.attributes["box"])] += whole(pull, "count")
    assert boxes == {"medium": 2540, "deep": 370, "shallow": 190}
    assert tonnes(pulls) == about(48.9, 2)
    assert len({(pull.attributes["yard"], pull.attributes["pulled"]) for pull in pulls}) == 88
    assert len(season.of("receive")) == about(100, 10)


def test_the_yards_and_what_they_gave(season: Season) -> None:
    yards = season.records(YARD)
    colonies = {key: record["colonies"] for key, record in yards.items()}
    assert len(yards) == 40
    assert sum(colonies.values()) == 1200  # type: ignore[arg-type]
    assert all(24 <= number <= 48 for number in colonies.values())  # type: ignore[operator]
    grams: Counter[str] = Counter()
    for pull in season.lots("S", "receive"):
        grams[str(pull.attributes["yard"])] += pull.made_g
    each = sorted(grams[key] / 1000 / int(str(colonies[key])) for key in yards)
    assert each[0] == 0  # one gave nothing
    assert all(5 < kg < 18 for kg in each[1:3])  # two failed
    assert all(18 <= kg <= 75 for kg in each[3:])
    assert sum(each) / len(each) == about(40.8, 5)


def test_the_seven_places_hold_what_a_day_in_september_needs(season: Season) -> None:
    """Something waits, runs or is held at every station at the sample's now."""
    waiting = {row.place for row in season.view.held_at(PALLET)}
    assert 4 <= len(waiting) <= 8
    today = SAMPLE_NOW_MS - 12 * 3_600_000
    happened = Counter(e.kind for e in season.entries if e.act.happened.at_ms > today)
    assert happened.keys() >= {"receive", "load", "fill", "change-over", "dispatch", "open run"}
    assert "close run" not in happened
    assert season.view.held_at(FILLING)
    unread = [
        lot.code for lot in season.lots("D") if season.view.mark(lot.code, "moisture") is None
    ]
    assert code("drum 134") in unread
    assert max(entry.act.happened.at_ms for entry in season.entries) < SAMPLE_NOW_MS


# Through the house.


def test_what_came_out_by_scale(season: Season) -> None:
    sorts = {key: record["sort"] for key, record in season.records("drum").items()}
    voided = {m.subject for m in season.view.marked("label") if m.value == "void"}
    filled: dict[str, list[Lot]] = {"drum": [], "tote": [], "pail": []}
    for lot in season.lots("D"):
        if lot.code not in voided:
            filled[str(sorts[str(lot.attributes["container"])])].append(lot)
    assert len(filled["drum"]) == pytest.approx(138, abs=2)
    assert [lot.made_g for lot in filled["tote"]] == [1_395_000] * 2
    pails = [lot for lot in filled["pail"] if lot.attributes.get("run")]
    assert [lot.made_g for lot in pails] == [27_200] * 36
    usual = [lot.made_g for lot in filled["drum"] if lot.made_g > 250_000]
    assert sum(usual) / len(usual) == pytest.approx(293_200, abs=600)
    assert tonnes([*filled["drum"], *filled["tote"], *pails]) == about(44.2, 2)


def test_cappings_their_honey_and_their_wax(season: Season) -> None:
    barrels = season.lots("W")
    assert tonnes(barrels) == about(4.58 + 0.69, 4)
    grams: dict[bool, list[int]] = {True: [], False: []}
    for entry in season.of("fill"):
        if str(said(entry)["source"]).startswith("W"):
            grams[said(entry).get("into") == "Melter"].append(said(entry)["weight"]["net_g"])
    assert sum(grams[False]) / 1e6 == about(4.58 * 0.88, 5)
    melted = len(grams[True]) / len(barrels)  # the last ones still drain
    assert melted > 0.8
    assert sum(grams[True]) / 1e6 == about(0.55 * melted, 5)
    bakery = [lot for lot in season.lots("D") if _from_melter(season, lot)]
    assert tonnes(bakery) == about(0.35 * melted, 30)


def _from_melter(season: Season, lot: Lot) -> bool:
    entry = season.view.entry(lot.made_by)
    return entry is not None and said(entry).get("source") == "Melter"


def test_scales_against_estimates_run_by_run(season: Season) -> None:
    runs = [code(f"run {number}") for number in range(1, 26)]
    ratios = []
    for run in runs:
        balance = balance_of(season.view, run)
        ratios.append(balance.out_g / balance.in_g)
    assert sum(ratios) / len(ratios) == pytest.approx(0.97, abs=0.015)
    assert ratios[13] == pytest.approx(0.86, abs=0.005)  # weighed with its pallets
    assert ratios[19] == pytest.approx(1.12, abs=0.01)  # a pallet missed
    usual = [ratio for at, ratio in enumerate(ratios) if at not in (13, 19)]
    assert all(0.90 <= ratio <= 1.06 for ratio in usual)
    assert season.view.mark(place("run", code("run 26")), "closed") is None
    supers = [balance_of(season.view, run).supers for run in runs]
    assert sum(supers) / len(supers) == about(117, 5)


def test_the_honey_is_of_many_colours_and_a_few_drums_are_wet(season: Season) -> None:
    drums = {lot.code for lot in season.lots("D")}
    colours = [m.value for m in season.view.marked("colour") if m.subject in drums]
    wet = [m.value for m in season.view.marked("moisture") if m.subject in drums]
    assert min(colours) < 160 < 450 < max(colours)  # type: ignore[type-var, operator]
    over = sum(value > 1860 for value in wet)  # type: ignore[operator]
    assert over / len(wet) == pytest.approx(0.05, abs=0.02)


def test_the_jars(season: Season) -> None:
    jars: Counter[str] = Counter()
    for lot in season.lots("J"):
        jars[str(lot.attributes["product"])] += whole(lot, "jars")
    assert jars["field-blend-250-g"] == 6000
    assert jars["field-blend-1-kg"] == about(2600, 2)
    assert jars["creamed-honey-375-g"] == 3400
    assert jars["kitchen-pail-3-kg"] == 220
    jars["clover-honey-500-g"] += 425  # filled so far in the bottling that is open
    assert jars["clover-honey-500-g"] == about(5200, 9)
    grams = sum(row.grams for row in season.view.held_at(FILLING))
    assert tonnes(season.lots("J")) + grams / 1e6 == about(8.64, 3)
    assert len(season.lots("J")) + 1 == 18


def test_honey_bought_in_and_a_truck_of_drums(season: Season) -> None:
    bought = season.lots("P")
    assert len(bought) == 10
    assert len({lot.attributes["supplier_lot"] for lot in bought}) == 3
    moistures = [season.view.mark(lot.code, "moisture") for lot in bought]
    assert [m.value for m in moistures if m and m.value > 2000] == [2040]  # type: ignore[operator]
    truck = max(season.of("dispatch"), key=lambda entry: len(said(entry)["lines"]))
    assert len(said(truck)["lines"]) == 66
    grams = sum(p.grams for p in truck.postings if p.grams > 0)
    assert grams / 1e6 == about(19.35, 1)


# The books as a whole.


def test_every_invariant_holds(season: Season) -> None:
    findings = season.house.store.audit()
    assert len(findings) >= 8
    assert not [one for one in findings if not one.holds]


@pytest.mark.parametrize("number", [1, 3, 6, 10, 16])
def test_any_jar_leads_back_to_its_yards(season: Season, number: int) -> None:
    jar = season.lot(f"bottling {number}")
    trace = trace_back(season.view, jar.code)
    assert sum(row.share for row in trace.ancestors) == pytest.approx(1, abs=1e-12)
    assert sum(row.grams for row in trace.ancestors) == trace.made_g
    assert trace.reach_complete
    assert {row.kind for row in trace.ancestors} <= {"yard", "supplier"}
    assert ("supplier" in {row.kind for row in trace.ancestors}) == (number in (3, 16))


def test_a_yard_leads_forward_to_every_customer(season: Season) -> None:
    reach = trace_forward(season.view, "Quernhollow")
    assert {row.name for row in reach.customers} >= {"Corvane Packing", "Three Kettles Grocery"}
    assert reach.on_hand_g > 0
