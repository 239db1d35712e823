"""A label's content by the markets its product is for, as the books make it."""

from pathlib import Path

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.label_content import LabelContent, content_rows, content_warnings
from honeyledger.services.labelling import jar_content, jar_warnings, label_rows
from honeyledger.services.papers import JarLabel, Serials
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused

MARKETS = shipped_markets(Path(__file__).parents[2] / "resources" / "labels" / "content")
HOUSE = {"name": "Test House", "zone": "UTC", "country": "Canada"}
WHOLE = {
    "keeps_months": 24,
    "grade": "Canada No. 1",
    "colour_class": "White",
    "style": "Liquid",
    "storage": "Keep dry.",
}


@pytest.fixture(scope="module")
def built() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Creek")
    made.vessel("Tank")
    made.load("Creek", 100_000, "Tank")
    return made


@pytest.fixture
def house(built: BuiltHouse) -> BuiltHouse:
    built.do(Register("house", HOUSE))
    for mark in built.house.ask(lambda view: view.marked("record", "wording/")):
        name = str(dict(mark.value)["name"])  # type: ignore[arg-type, call-overload]
        record: dict[str, str | int] = {"name": name, "market": "nowhere", "text": "-"}
        built.do(Register("wording", record, key=mark.subject.partition("/")[2]))
    return built


def _jars(house: BuiltHouse, **record: str | int) -> str:
    house.do(Register("product", {"name": "Clover", "net_g": 500, **record}, key="clover"))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, 2))
    return code


def _label(house: BuiltHouse, code: str) -> JarLabel:
    (row,) = house.house.ask(lambda view: list(label_rows(view, code, Serials(1, 1), MARKETS)))
    assert isinstance(row, JarLabel)
    return row


def _content(house: BuiltHouse, code: str) -> LabelContent:
    return house.house.ask(lambda view: jar_content(view, code, MARKETS))


def test_without_a_market_the_usual_is_enough(house: BuiltHouse) -> None:
    label = _label(house, _jars(house))
    assert (label.grading, label.origin, label.us_first) == ("", "", False)


EU = "Regulation (EU) 1169/2011, article 9(1)"


@pytest.mark.parametrize(
    ("market", "missing"),
    [
        (
            "EU",
            f"the address of who answers for it (EU: {EU}(h)); best before (EU: {EU}(f) and "
            "annex X)",
        ),
        (
            "UK",
            "the address of who answers for it (UK: Regulation (EU) 1169/2011, as kept in UK "
            "law, article 9(1)(h)); best before (UK: Regulation (EU) 1169/2011, as kept in UK "
            "law, article 9(1)(f))",
        ),
        ("US", "the address of who answers for it (US: 21 CFR 101.5(d))"),
        (
            "US, EU",
            "the address of who answers for it (US: 21 CFR 101.5(d)); the address of who answers "
            f"for it (EU: {EU}(h)); best before (EU: {EU}(f) and annex X)",
        ),
    ],
)
def test_what_is_missing_is_refused_with_the_whole_list(
    house: BuiltHouse, market: str, missing: str
) -> None:
    code = _jars(house, for_markets=market)
    assert refused(lambda: _label(house, code)) == (
        f"The label of Clover lacks {missing}. Put it on record under Products or The house, "
        "then print again; check your local code, too."
    )


def test_in_canada_the_list_has_what_graded_honey_needs(house: BuiltHouse) -> None:
    code = _jars(house, for_markets="Canada", grade="Canada No. 1")
    assert refused(lambda: _label(house, code)) == (
        "The label of Clover lacks the style (liquid, creamed, pressed …) (Canada: Safe Food for "
        "Canadians Regulations, section 275(1)(b) and (2)); the colour class (Canada: Safe Food "
        "for Canadians Regulations, section 324). Put it on record under Products or The house, "
        "then print again; check your local code, too."
    )


def test_a_market_of_the_houses_own_is_refused_with_its_list(house: BuiltHouse) -> None:
    """What the house asks for besides is told by the name of its wording."""
    for item in ("storage", "address", "best before"):
        house.do(Register("wording", {"name": f"Our {item}", "market": "own", "item": item}))
    code = _jars(house, for_markets="own")
    assert refused(lambda: _label(house, code)) == (
        "The label of Clover lacks the address of who answers for it (own: Our address); best "
        "before (own: Our best before); how to store it (own: Our storage). Put it on record "
        "under Products or The house, then print again; check your local code, too."
    )


def test_graded_honey_lacks_its_class_and_style_in_canada(house: BuiltHouse) -> None:
    code = _jars(house, for_markets="Canada", grade="Canada No. 1")
    assert [one.line.item for one in _content(house, code).missing] == ["style", "colour class"]


@pytest.mark.parametrize("market", ["EU", "UK", "US", "Canada", "own"])
def test_a_whole_record_is_printed_in_every_market(house: BuiltHouse, market: str) -> None:
    house.do(Register("house", {**HOUSE, "address": "12 Mill Road, Eastbrook"}))
    label = _label(house, _jars(house, for_markets=market, **WHOLE))
    assert label.place == "12 Mill Road, Eastbrook"
    assert label.grading == "Canada No. 1 · White · Liquid"
    assert (label.storage, label.us_first) == ("Keep dry.", market == "US")
    assert label.origin == ("" if market == "own" else "Origin: Canada")
    assert bool(label.heights) is (market != "own")


def test_the_houses_markets_count_where_the_product_names_none(house: BuiltHouse) -> None:
    house.do(Register("house", {**HOUSE, "markets": "US"}))
    assert "21 CFR 101.5(d)" in refused(lambda: _label(house, _jars(house)))


def test_a_product_may_be_answered_for_by_another(house: BuiltHouse) -> None:
    house.do(Register("house", {**HOUSE, "address": "12 Mill Road, Eastbrook"}))
    other = {"party": "Packed for Corner Shop", "party_address": "1 High Street, Eastbrook"}
    label = _label(house, _jars(house, for_markets="US", **other))
    assert (label.producer, label.place) == tuple(other.values())
    code = _jars(house, for_markets="US", party="Packed for Corner Shop")
    assert [one.line.item for one in _content(house, code).missing] == ["address"]


def test_a_blend_names_each_country_with_its_share(house: BuiltHouse) -> None:
    far = BuiltHouse()
    far.do(Register("house", {**HOUSE, "place": "12 Mill Road, Eastbrook"}))
    far.do(Register("yard", {"name": "Creek"}))
    far.do(Register("yard", {"name": "Pampa", "country": "Argentina"}))
    far.vessel("Tank")
    far.load("Creek", 60_000, "Tank")
    far.load("Pampa", 40_000, "Tank")
    code = _jars(far, for_markets="EU", keeps_months=24)
    assert _label(far, code).origin == "Origin: Canada 60.0 %, Argentina 40.0 %"
    code = _jars(far, for_markets="UK", keeps_months=24)
    assert _label(far, code).origin == "Origin: Canada, Argentina"
    blend = {"origin": "Blend of honeys from Canada and Argentina", "keeps_months": 24}
    code = _jars(far, for_markets="EU", **blend)
    assert [one.line.item for one in _content(far, code).missing] == ["origin"]
    code = _jars(far, for_markets="UK", **blend)
    assert _content(far, code).missing == ()


def test_a_country_nobody_wrote_down_is_missing(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "place": "12 Mill Road"}))
    code = _jars(house, for_markets="EU", keeps_months=24)
    assert [one.line.item for one in _content(house, code).missing] == ["origin"]


def test_a_house_asks_for_more_and_prints_its_words(house: BuiltHouse) -> None:
    wording = {"name": "Jar back", "market": "own", "text": "Return this jar to us."}
    house.do(Register("wording", wording, key="jar-back"))
    house.do(Register("wording", {"name": "Store", "market": "own", "item": "storage"}, key="st"))
    assert "how to store it (own: Store)" in refused(lambda: _label(house, _jars(house)))
    assert _label(house, _jars(house, storage="Keep dry.")).texts == ("Return this jar to us.",)


def test_each_line_is_listed_with_what_stands_there(house: BuiltHouse) -> None:
    rows = content_rows(_content(house, _jars(house, for_markets="US", keeps_months=24)))
    found = {str(row.what): (row.says, row.lacks, row.verified) for row in rows}
    assert found["the name of the food"] == ("Clover", False, True)
    assert found["the net quantity"][0] == "Net Wt 17.6 oz (1 lb 1.6 oz, 500 g)"
    assert found["the address of who answers for it"] == ("", True, True)
    look = "to look at: Nutrition facts, where the business is not exempt."
    assert found[look] == ("", False, False)


def test_what_is_in_doubt_is_warned_of_and_holds_nothing_back(house: BuiltHouse) -> None:
    code = _jars(house, for_markets="UK, Japan", keeps_months=24)
    warned = [(str(one.text), one.is_verified) for one in content_warnings(_content(house, code))]
    assert warned == [
        ("It lacks the address of who answers for it, for UK.", True),
        ("It lacks how to store it, for UK.", False),
        ("No content of labels is on file for Japan.", True),
    ]
    now_ms = house.now_ms
    said = house.house.ask(lambda view: jar_warnings(view, code, now_ms, MARKETS))
    assert [str(one.text) for one in said] == [text for text, _ in warned]
    drum = house.drum("Tank", 1_000)
    assert house.house.ask(lambda view: jar_warnings(view, drum, now_ms, MARKETS)) == ()
    house.do(Register("house", {**HOUSE, "place": "12 Mill Road"}))
    assert _label(house, code).storage == ""


def test_countries_asked_for_too_early_are_told_when_printing_only(house: BuiltHouse) -> None:
    house.do(
        Register(
            "product", {"name": "Clover", "net_g": 500, "origin": "Of {countries}"}, key="clover"
        )
    )
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    with pytest.raises(Refusal) as said:
        house.house.ask(lambda view: list(label_rows(view, code, Serials(1, 1), MARKETS)))
    assert said.value.key == "countries-later"
