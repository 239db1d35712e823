"""The list of check values, row by row and table by table: which test holds each.

Marks: S seen in the source named, S2 seen in a secondary source only, C computed from seen inputs,
M from memory. Each test names its source beside its values; here stands where it is. What no
other test holds is checked below.
"""

import re
from fractions import Fraction
from pathlib import Path

import pytest
from qrcode.constants import ERROR_CORRECT_H, ERROR_CORRECT_M
from qrcode.main import QRCode
from qrcode.util import MODE_ALPHA_NUM, QRData

from honeyledger.assets import resource
from honeyledger.documents.symbols import make_symbol
from honeyledger.domain.claims import country_shares
from honeyledger.domain.gs1 import bracketed, read_elements
from honeyledger.domain.net_contents import named
from honeyledger.domain.refraction import Scale, Shown, by_formula, moisture_of
from honeyledger.exchange.net_contents import net_rules

TESTS = Path(__file__).parent.parent
REFRACTION, NET = "domain/test_refraction.py", "domain/test_net_contents.py"
NET_FILES, STANDARDS = "exchange/test_net_contents.py", "exchange/test_standards.py"
GS1, PAIRS, CHANCE = "domain/test_gs1.py", "domain/test_check_pairs.py", NET[:-3] + "_chance.py"

LIST = {
    "1 S": (REFRACTION, "test_every_row_of_the_table_is_met_both_ways"),
    "2 S": (REFRACTION, "test_every_row_of_the_table_is_met_both_ways"),
    "3 C": (REFRACTION, "test_the_formula_agrees_with_every_row"),
    "4 C": (REFRACTION, "test_the_formula_agrees_with_every_row"),
    "5 S2": (REFRACTION, "test_a_reading_above_20_degrees_is_raised_and_one_below_is_lowered"),
    "6 C": (REFRACTION, "test_a_reading_above_20_degrees_is_raised_and_one_below_is_lowered"),
    "7 S": (GS1, "test_check_digits_are_as_published"),
    "8 S": (GS1, "test_check_digits_are_as_published"),
    "9 S": (GS1, "test_check_digits_are_as_published"),
    "10 S": (GS1, "test_check_digits_are_as_published"),
    "11 S": ("domain/test_codes.py", "test_check_character_is_mod_37_36"),
    "12 S": ("domain/test_codes.py", "test_check_character_is_mod_37_36"),
    "13 S": (PAIRS, "test_pairs_are_as_published"),
    "14 S": (PAIRS, "test_pairs_are_as_published"),
    "15 C": (PAIRS, "test_pairs_are_as_published"),
    "16 S": (NET, "test_the_tolerable_deficiency"),
    "17 S": (NET_FILES, "test_worked_lots"),
    "18 S": (NET_FILES, "test_worked_lots"),
    "19 S": (CHANCE, "test_a_mean_at_the_declared_net_passes_in_995_of_1000"),
    "20 S": ("stories/test_check_list.py", "test_a_weight_is_carried_with_its_decimals"),
    "21 S": ("domain/test_gs1_days.py", "test_days_are_read"),
    "22 S": (GS1, "test_the_published_address_goes_both_ways"),
    "23 S": ("stories/test_check_list.py", "test_a_symbol_holds_as_many_characters_as_published"),
    "24 S2": ("domain/test_dips.py", "test_specific_gravity_by_a_bottle"),
    "25 S": ("domain/test_units.py", "test_pounds_are_exact"),
}
TABLES = {
    "1.1 moisture by index, 61 rows, S": (REFRACTION, "test_every_row_of_the_table"),
    "1.2 Wedmore's equation, S": (REFRACTION, "test_the_formula_agrees_with_every_row"),
    "1.3 temperature, S": (REFRACTION, "test_a_reading_above_20_degrees_is_raised"),
    "1.4 Brix, M": (REFRACTION, "test_brix_on_the_scale_of_sucrose"),
    "2.1 Pfund and optical density, S2": ("domain/test_colour.py", "test_bounds_are_inclusive"),
    "3.1 United States grades, S2 and M": (STANDARDS, "test_the_figures_of_the_american_grades"),
    "3.2 Canadian grades, No. 1 S": (STANDARDS, "test_the_first_canadian_grade"),
    "4.1 European annex, S": (STANDARDS, "test_every_limit_of_the_european_annex"),
    "4.1 conductivity, exempt, S": (STANDARDS, "test_kinds_without_a_limit_of_conductivity"),
    "4.1 few enzymes, S": (STANDARDS, "test_little_diastase_is_fine"),
    "4.2 Codex, M": (STANDARDS, "test_all_of_the_codex_and_of_the_american_grades"),
    "4.3 countries, 5 %, S": ("domain/test_claims.py", "test_a_label_fits_in_falling_order"),
    "5 fermentation, S2": ("domain/test_keeping.py", "test_with_a_count_it_keeps_or_it_does_not"),
    "6 humidity in balance, S2": ("domain/test_air.py", "test_the_table_is_met_both_ways"),
    "7.1 density, M": ("domain/test_dips.py", "test_the_table_of_densities"),
    "7.2 HMF, S2": ("domain/test_heat_budget.py", "test_the_published_times_are_met"),
    "7.3 diastase, M": ("domain/test_heat_budget.py", "test_after_one_half_life_half"),
    "8.1 tolerable deficiency, S": (NET_FILES, "test_the_tolerable_deficiency_of_every_row"),
    "8.2 plans, S": (NET_FILES, "test_the_plans_are_those_of_their_sources"),
    "8.3 United States, M": (NET_FILES, "test_the_table_of_the_united_states_is_shown_only"),
    "9 lot mark, best before, S": ("services/test_label_marks.py", "test_a_day_alone_as_lot_mark"),
    "10.1 check digits, S": (GS1, "test_check_digits_are_as_published"),
    "10.2 identifiers, S": (GS1, "test_element_strings_are_as_published"),
    "10.3 Digital Link, S": (GS1, "test_addresses_are_read"),
    "10.4 MOD 37,36, S": ("domain/test_codes.py", "test_check_character_is_mod_37_36"),
    "10.4 MOD 97-10, S": (PAIRS, "test_pairs_are_as_published"),
    "10.5 QR, S": ("stories/test_check_list.py", "test_a_symbol_holds_as_many_characters"),
    "11 hive beetle, S": ("domain/test_beetles.py", "test_dry_air_holds_them_back"),
    "12 withholding, C": ("domain/test_withholding.py", "test_supers_may_go_on_an_interval"),
}


@pytest.mark.parametrize("row", [*LIST, *TABLES])
def test_a_test_holds_it(row: str) -> None:
    file, name = (LIST | TABLES)[row]
    text = (TESTS / file).read_text(encoding="utf-8")
    assert re.search(rf"^def {name}\w*\(", text, re.MULTILINE), f"{row}: {file} has no {name}"


def test_the_list_is_whole() -> None:
    assert [int(row.split()[0]) for row in LIST] == list(range(1, 26))


@pytest.mark.parametrize(
    ("index", "water"),
    # Check list 1 and 2 (S): Chataway 1932 and Wedmore 1955, in Bogdanov, Book of Honey, ch. 4.
    [(14900, 18_60), (15044, 13_00), (14915, 18_00), (14865, 20_00), (14740, 25_00)],
)
def test_the_points_of_the_table(index: int, water: int) -> None:
    assert moisture_of(Shown(Scale.INDEX, index * 100, 200)).moisture == water
    # Check list 3 and 4 (C): the equation is within 0.0216 % of it.
    assert abs(by_formula(index * 100) - water / 100) <= 0.0217


@pytest.mark.parametrize(
    ("count", "permille"),
    # Check list 19 (S): United Kingdom SI 2006/659, schedule 2, paragraph 4.
    [(20, 640), (30, 503), (50, 379)],
)
def test_the_factors_of_the_mean(count: int, permille: int) -> None:
    rule = named(net_rules(resource("net_contents")), "average")
    plans = {plan.weigh: plan.chance for plan in rule.plans}
    assert plans[count] == permille


def test_a_weight_is_carried_with_its_decimals() -> None:
    """Check list 20 (S): python-stdnum, gs1_128: the last figure of the identifier says them."""
    for text, elements in (
        ("(02)98412345678908(3102)001723(37)32", {"3102": "001723"}),
        ("(02)98412345678908(3103)000035(37)32", {"3103": "000035"}),
    ):
        found = read_elements(text)
        assert found is not None
        assert elements.items() <= found.items()
        assert bracketed(found) == text
        ((ai, figures),) = elements.items()
        kilograms = Fraction(int(figures), 10 ** int(ai[-1]))
        assert kilograms in (Fraction("17.23"), Fraction("0.035"))


@pytest.mark.parametrize(
    ("level", "version", "most"),
    # Check list 23 (S): ISO/IEC 18004 as in segno's tables; the other rows of 10.5 (S and C).
    [
        (ERROR_CORRECT_H, 1, 10),
        *(
            (ERROR_CORRECT_M, version, most)
            for version, most in (
                *((1, 20), (2, 38), (3, 61), (4, 90), (5, 122)),
                *((6, 154), (7, 178), (8, 221), (9, 262), (10, 311)),
            )
        ),
    ],
)
def test_a_symbol_holds_as_many_characters_as_published(
    level: int, version: int, most: int
) -> None:
    for length, wanted in ((most, version), (most + 1, version + 1)):
        symbol = QRCode(error_correction=level)
        symbol.add_data(QRData("A" * length, mode=MODE_ALPHA_NUM))
        symbol.make(fit=True)
        assert symbol.version == wanted
        if level == ERROR_CORRECT_M and wanted <= 10:
            assert make_symbol("A" * length).modules == 17 + 4 * wanted


def test_the_blend_of_three_countries() -> None:
    """4.3 (C): 300 kg of A, 150 kg of B and 50 kg of C are 60, 30 and 10 %, 100.0 together."""
    shares = country_shares({"A": 300 / 500, "B": 150 / 500, "C": 50 / 500}, [])
    assert [(one.name, one.share) for one in shares] == [("A", 600), ("B", 300), ("C", 100)]
