"""Rules in files: those shipped against their sources, and files with slips."""

from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from honeyledger.assets import resource
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.results import parse_result
from honeyledger.domain.standards import Mark, Outcome, Standard, grade_of, judged, named
from honeyledger.exchange.standards import read_standards, shipped

FOLDER = resource("standards")


@pytest.fixture(scope="module")
def standards() -> tuple[Standard, ...]:
    return shipped(FOLDER)


def outcome(
    standards: tuple[Standard, ...], kinds: str | None, property_: str, **results: str
) -> str:
    """What the European rules say of a property; kinds by commas, None where nobody said."""
    read = {name.replace("_", " "): parse_result(text) for name, text in results.items()}
    said = None if kinds is None else [kind for kind in kinds.split(",") if kind]
    verdict = judged(named(standards, "eu"), read, said)
    return next(row.outcome.value for row in verdict.rows if row.rule.what == property_)


# Directive 2001/110/EC, annex II, as at legislation.gov.uk/eudr/2001/110/annex/II (seen): every
# limit at its bound and a tenth beyond.
@pytest.mark.parametrize(
    ("kinds", "property_", "passes", "fails"),
    [
        ("blossom", "moisture", "20.0", "20.1"),
        ("heather", "moisture", "23.0", "23.1"),
        ("baker's", "moisture", "23.0", "23.1"),
        ("heather,baker's", "moisture", "25.0", "25.1"),
        ("blossom", "fructose and glucose", "60", "59.9"),
        ("honeydew", "fructose and glucose", "45", "44.9"),
        ("honeydew with blossom", "fructose and glucose", "45", "44.9"),
        ("blossom", "sucrose", "5", "5.1"),
        *(
            (kind, "sucrose", "10", "10.1")
            for kind in ("false acacia", "alfalfa", "menzies banksia", "french honeysuckle")
        ),
        *((kind, "sucrose", "10", "10.1") for kind in ("red gum", "leatherwood", "citrus")),
        ("lavender", "sucrose", "15", "15.1"),
        ("borage", "sucrose", "15", "15.1"),
        ("blossom", "insolubles", "0.1", "0.11"),
        ("pressed", "insolubles", "0.5", "0.6"),
        ("blossom", "conductivity", "0.8", "0.81"),
        ("honeydew", "conductivity", "0.8", "0.79"),
        ("chestnut", "conductivity", "0.8", "0.79"),
        ("blossom", "free acid", "50", "50.1"),
        ("baker's", "free acid", "80", "80.1"),
        ("blossom", "diastase", "8", "7.9"),
        ("blossom", "hmf", "40", "40.1"),
    ],
)
def test_every_limit_of_the_european_annex(
    standards: tuple[Standard, ...], kinds: str, property_: str, passes: str, fails: str
) -> None:
    name = property_.replace(" ", "_")
    assert outcome(standards, kinds, property_, **{name: passes}) == "pass"
    assert outcome(standards, kinds, property_, **{name: fails}) == "fail"


@pytest.mark.parametrize(
    "kind",
    # The same annex: exempt from the limit of conductivity.
    [
        *("strawberry tree", "bell heather", "eucalyptus", "lime", "heather", "manuka"),
        *("jelly bush", "tea tree"),
    ],
)
def test_kinds_without_a_limit_of_conductivity(standards: tuple[Standard, ...], kind: str) -> None:
    assert outcome(standards, kind, "conductivity", conductivity="1.5") == "pass"


def test_little_diastase_is_fine_where_enzymes_are_few_and_there_is_hardly_any_hmf(
    standards: tuple[Standard, ...],
) -> None:
    few = "low in enzymes"
    assert outcome(standards, few, "diastase", diastase="5", hmf="16") == "fail"
    assert outcome(standards, few, "diastase", diastase="3", hmf="15") == "pass"
    assert outcome(standards, few, "diastase", diastase="2.9", hmf="15") == "fail"
    assert outcome(standards, few, "diastase", diastase="8", hmf="39") == "pass"
    assert outcome(standards, few, "diastase", diastase="5") == "unknown"
    assert outcome(standards, few, "diastase", diastase="9") == "pass"
    assert outcome(standards, "baker's", "diastase", diastase="1") == "pass"
    assert outcome(standards, "baker's", "hmf", hmf="90") == "pass"


def test_what_was_seen_in_a_secondary_source_only_decides_nothing(
    standards: tuple[Standard, ...],
) -> None:
    for hmf in ("10", "79", "200"):
        assert outcome(standards, "tropical", "hmf", hmf=hmf) == "unverified"


def test_where_nobody_said_what_kind_it_is(standards: tuple[Standard, ...]) -> None:
    assert outcome(standards, None, "moisture", moisture="19.9") == "pass"
    assert outcome(standards, None, "moisture", moisture="21") == "unknown"
    assert outcome(standards, None, "moisture", moisture="25.1") == "fail"
    assert outcome(standards, None, "conductivity", conductivity="0.5") == "unknown"
    assert outcome(standards, None, "hmf", hmf="30") == "pass"
    assert outcome(standards, None, "hmf", hmf="60") == "unknown"


def test_all_of_the_codex_and_of_the_american_grades_is_shown_only(
    standards: tuple[Standard, ...],
) -> None:
    # Codex CXS 12 and the United States Standards of 1985: values from memory or from secondary
    # sources, so whatever is measured, nothing passes or fails.
    results = {
        name: parse_result("999")
        for name in ("moisture", "hmf", "sucrose", "solids", "total score", "clarity")
    }
    for one in standards:
        if one.name == "codex" or one.market == "United States":
            verdict = judged(one, results, ["blossom"])
            assert {row.outcome for row in verdict.rows} == {Outcome.UNVERIFIED}
            assert verdict.outcome is Outcome.UNVERIFIED
            assert verdict.unverified == len(verdict.rows)


def test_the_figures_of_the_american_grades(standards: tuple[Standard, ...]) -> None:
    # medicalalgorithms.com/usda-grades-of-extracted-honey (secondary): totals and moistures; the
    # points of each factor and the solids: values from memory.
    expected = {
        "us-a": {"total score": 90, "moisture": "18.6", "solids": "81.4", "clarity": 8},
        "us-b": {"total score": 80, "moisture": "18.6", "solids": "81.4", "clarity": 6},
        "us-c": {"total score": 70, "moisture": "20.0", "solids": "80.0", "clarity": 4},
    }
    for name, figures in expected.items():
        rules = {rule.what: rule for rule in named(standards, name).rules}
        for property_, figure in figures.items():
            rule = rules[property_]
            bound = rule.highest if property_ == "moisture" else rule.lowest
            assert bound == Decimal(figure)
            assert rule.mark in (Mark.SECOND_HAND, Mark.FROM_MEMORY)


def test_the_first_canadian_grade(standards: tuple[Standard, ...]) -> None:
    # Canadian Grade Compendium, volume 6: 17.8 % and, marked pasteurized, 18.6 %; diastase 8 with
    # HMF up to 40, 3 with HMF up to 15 (seen). Its insolubles: a secondary source.
    first = named(standards, "canada-1")

    def rows(kinds: list[str], **results: str) -> dict[str, str]:
        read = {name: parse_result(text) for name, text in results.items()}
        return {row.rule.what: row.outcome.value for row in judged(first, read, kinds).rows}

    assert rows(["blossom"], moisture="17.8", diastase="8", hmf="40") == {
        "moisture": "pass",
        "diastase": "pass",
        "hmf": "pass",
        "insolubles": "unverified",
    }
    assert rows(["blossom"], moisture="17.9")["moisture"] == "fail"
    assert rows(["pasteurized"], moisture="18.6")["moisture"] == "pass"
    assert rows(["pasteurized"], moisture="18.7")["moisture"] == "fail"
    assert rows(["blossom"], diastase="3", hmf="15")["diastase"] == "pass"
    assert rows(["blossom"], diastase="7.9", hmf="16")["diastase"] == "fail"
    # Nobody said the kind: what holds for all kinds is not a matter of the kind.
    read = {"diastase": parse_result("3"), "hmf": parse_result("15")}
    found = {row.rule.what: row.outcome for row in judged(first, read, None).rows}
    assert found["diastase"] is Outcome.PASS


def test_a_grade_with_unverified_rules_is_never_given(standards: tuple[Standard, ...]) -> None:
    read = {name: parse_result("1") for name in ("moisture", "hmf")}
    grades = [judged(one, read, ["blossom"]) for one in standards if one.scheme == "Canada"]
    assert len(grades) == 3
    assert grade_of(grades) is None


def test_every_rule_has_its_source_and_date_and_a_file_says_nothing_twice(
    standards: tuple[Standard, ...],
) -> None:
    assert {one.name for one in standards} == {
        *("eu", "codex", "us-a", "us-b", "us-c", "canada-1", "canada-2", "canada-3")
    }
    for one in standards:
        assert all(rule.source and rule.as_of for rule in one.rules)
        about = Counter((rule.what, rule.all_of, rule.any_of, rule.given) for rule in one.rules)
        assert set(about.values()) == {1}


OWN = """
[eu]
market = "European Union"
title = "Ours"
source = "contract 12"
as_of = "1 Jul 2026"
[[eu.rules]]
property = "Moisture"
unit = "%"
highest = 17.5
[[eu.rules]]
property = "hmf"
unit = "mg/kg"
highest = 80
any_of = ["Tropical"]
[buyer]
market = "A buyer"
title = "A buyer's terms"
source = "contract 12"
as_of = "1 Jul 2026"
[[buyer.rules]]
property = "glyphosate"
unit = "mg/kg"
highest = 0.05
"""


def test_a_house_adds_rules_and_replaces_those_it_has_read(tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    file.write_text(OWN, "utf-8")
    ours = shipped(FOLDER, file)
    assert outcome(ours, "blossom", "moisture", moisture="17.6") == "fail"
    assert outcome(ours, "heather", "moisture", moisture="22") == "pass"
    assert outcome(ours, "tropical", "hmf", hmf="80") == "pass"
    assert outcome(ours, "tropical", "hmf", hmf="81") == "fail"
    buyer = named(ours, "buyer")
    (row,) = judged(buyer, {"glyphosate": parse_result("<0.05")}, None).rows
    assert (row.outcome, row.rule.mark, row.rule.limit) == (
        Outcome.PASS,
        Mark.OWN,
        "at most 0.05 mg/kg",
    )
    assert len(ours) == len(shipped(FOLDER)) + 1


HEAD = '[mine]\nmarket="a"\ntitle="b"\nsource="c"\nas_of="d"\nmark="S"\n'
RULE = '[[mine.rules]]\nproperty="hmf"\n'


@pytest.mark.parametrize(
    ("text", "where", "name", "wanted"),
    [
        ("mine = 1", "mine", "mine", "a table"),
        (HEAD, "mine", "rules", "a list with at least one rule"),
        ("[mine]\nrules=[{}]", "mine", "market", "a text in quotation marks"),
        (HEAD + 'order="1"\n' + RULE, "mine", "order", "a whole number"),
        (HEAD + RULE + 'highest="40"', "mine, rule 1", "highest", "a number"),
        (HEAD + RULE + "highest=-1", "mine, rule 1", "highest", "a number, 0 or more"),
        (HEAD + RULE + "highest=nan", "mine, rule 1", "highest", "a number, 0 or more"),
        (HEAD + RULE + "lowest=2\nhighest=1", "mine, rule 1", "highest", "no lower than lowest"),
        (HEAD + RULE + 'mark="own"', "mine, rule 1", "mark", "S, S2, C or M"),
        (HEAD + RULE + 'any_of="lime"', "mine, rule 1", "any_of", "a list of kinds of honey"),
        (
            HEAD + RULE + 'given={property="hmf"}',
            "mine, rule 1",
            "given",
            "a property with lowest, highest or both",
        ),
        (
            HEAD + RULE + 'given={propety="hmf"}',
            "mine, rule 1",
            "propety",
            "one of highest, lowest, property",
        ),
        (HEAD + "rules=[1]", "mine, rule 1", "the rule", "a table"),
    ],
)
def test_a_slip_is_told_with_its_place(
    tmp_path: Path, text: str, where: str, name: str, wanted: str
) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(Refusal) as refused:
        read_standards(file)
    assert refused.value.text == (
        f"In mine.toml, {where}: {name} has to be {wanted}. Mend it; nothing of the file was used."
    )


def test_a_file_that_is_missing_or_no_toml_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        read_standards(tmp_path / "none.toml")
    assert refused.value.text == (
        "There is no file none.toml with rules: check its name and folder."
    )
    file = tmp_path / "bad.toml"
    file.write_text("[eu", "utf-8")
    with pytest.raises(Refusal) as refused:
        read_standards(file)
    assert refused.value.text.startswith("bad.toml is not written as TOML (")
    assert refused.value.text.endswith("): mend it, or leave it out.")
