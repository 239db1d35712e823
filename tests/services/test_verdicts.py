"""What rules of markets say to a lot: from its readings to the rows that people see."""

from honeyledger.assets import resource
from honeyledger.exchange.standards import shipped
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.measuring import Measure, Reported
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View
from honeyledger.services.verdicts import LotVerdict, VerdictRow, markets_of, verdicts_of
from tests.support.books import code_in
from tests.support.houses import BuiltHouse

STANDARDS = shipped(resource("standards"))


def _house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.load("Creek", 400_000, "Tank")
    return house


def _of(house: BuiltHouse, code: str, name: str, *kinds: str) -> LotVerdict:
    found = house.house.ask(lambda view: verdicts_of(view, code, STANDARDS, kinds or None))
    return next(one for one in found if one.standard == name)


def _row(verdict: LotVerdict, what: str) -> VerdictRow:
    return next(row for row in verdict.rows if row.what == what)


def test_each_rule_has_its_limit_the_value_and_what_follows() -> None:
    house = _house()
    drum = house.drum("Tank", 200_000)
    reported = (Reported("hmf", "<5"), Reported("diastase", "<3"), Reported("insolubles", "0.1"))
    house.do(Measure(drum, moisture=2010, results=reported))
    eu = _of(house, drum, "eu", "blossom")
    # Source: Directive 2001/110/EC, annex II, as in resources/standards/eu.toml.
    assert [(row.what, row.limit, row.value, row.outcome) for row in eu.rows] == [
        ("moisture", "at most 20 %", "20.10", "fail"),
        ("fructose and glucose", "at least 60 g/100 g", "", "unknown"),
        ("sucrose", "at most 5 g/100 g", "", "unknown"),
        ("insolubles", "at most 0.1 g/100 g", "0.1", "pass"),
        ("conductivity", "at most 0.8 mS/cm", "", "unknown"),
        ("free acid", "at most 50 meq/kg", "", "unknown"),
        ("diastase", "at least 8 Schade", "<3", "fail"),
        ("hmf", "at most 40 mg/kg", "<5", "pass"),
    ]
    assert (eu.outcome, _row(eu, "sucrose").why) == ("fail", "not measured")
    assert _row(eu, "hmf").source.startswith("Directive 2001/110/EC")


def test_below_something_passes_a_highest_and_says_nothing_of_a_lowest() -> None:
    house = _house()
    drum = house.drum("Tank", 200_000)
    house.do(Measure(drum, results=(Reported("hmf", "<50"), Reported("diastase", "<10"))))
    eu = _of(house, drum, "eu", "blossom")
    for what in ("hmf", "diastase"):
        assert (_row(eu, what).outcome, _row(eu, what).why) == (
            "unknown",
            "the result does not say",
        )


def test_figures_nobody_has_seen_are_shown_and_decide_nothing() -> None:
    house = _house()
    drum = house.drum("Tank", 200_000)
    house.do(Measure(drum, moisture=2200))
    grade = _of(house, drum, "us-a")
    assert {row.outcome for row in grade.rows} == {"unverified"}
    assert (grade.outcome, grade.unverified) == ("unverified", len(grade.rows))
    assert (_row(grade, "solids").value, _row(grade, "moisture").mark) == ("78.00", "S2")
    assert not grade.is_grade


def test_what_was_read_of_several_lots_together_counts_where_there_is_nothing_else() -> None:
    house = _house()
    house.pull("Creek", 50_000)
    house.load("Creek", 50_000, "Tank")
    house.do(Measure("Tank", moisture=1750))
    fill = house.drum("Tank", 100_000)
    pulls = [row.code for row in house.back(fill).lots if row.kind == "S"]
    row = _row(_of(house, pulls[0], "eu", "blossom"), "moisture")
    assert (row.value, row.together, row.outcome) == ("17.50", True, "pass")
    house.do(Measure(pulls[0], moisture=2150))
    row = _row(_of(house, pulls[0], "eu", "blossom"), "moisture")
    assert (row.value, row.together, row.outcome) == ("21.50", False, "fail")


def test_jars_are_judged_as_what_their_product_is_sold_as() -> None:
    house = _house()
    house.do(Register("product", {"name": "Heather", "net_g": 500, "kinds": "Heather, pressed"}))
    code = code_in(house.do(ChangeOver(product="Heather", feed="Tank")), "J")
    house.do(Bottle(code, 10))
    house.do(Measure(code, moisture=2300, results=(Reported("insolubles", "0.5"),)))
    eu = _of(house, code, "eu")
    assert (_row(eu, "moisture").outcome, _row(eu, "insolubles").outcome) == ("pass", "pass")
    assert _row(_of(house, code, "canada-1"), "moisture").outcome == "fail"


def test_a_house_says_where_it_sells() -> None:
    house = _house()
    assert house.house.ask(lambda view: markets_of(view, STANDARDS)) == STANDARDS
    house.do(Register("house", {"name": "Test House", "markets": "European Union; us-a"}))
    found = house.house.ask(lambda view: markets_of(view, STANDARDS))
    assert [one.name for one in found] == ["eu", "us-a"]


def test_a_houses_own_rule_stands_over_the_shipped_one_and_decides() -> None:
    house = _house()
    drum = house.drum("Tank", 200_000)
    house.do(Measure(drum, moisture=1790))
    own = {"name": "Contract", "property": "moisture", "highest": "17.5", "standard": "eu"}
    house.do(Register("limit", own))
    house.do(Register("limit", {"name": "Ours", "property": "moisture", "highest": "18.5"}))
    house.do(Register("house", {"name": "Test House", "markets": "European Union"}))

    def question(view: View) -> tuple[LotVerdict, ...]:
        return verdicts_of(view, drum, markets_of(view, STANDARDS), ["blossom"])

    eu, ours = house.house.ask(question)
    row = _row(eu, "moisture")
    assert (row.limit, row.outcome, row.mark) == ("at most 17.5 %", "fail", "own")
    assert (ours.standard, ours.outcome) == ("own", "pass")
