"""Reckoning in the terminal, where no house is."""

import pytest

from tests.support.terminal import Terminal

FROM_MEMORY = "By a value from memory: not to be relied on.\n"
SECOND_HAND = "By a table seen at second hand: a guide, no promise.\n"
GAP = "\u202f"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        # Book of Honey, chapter 4: 1.4900 at 25 °C is 1.49115 at 20 °C.
        ("moisture 1.4900 --temperature 25", "18.14 % water, 1.49115 at 20 °C\n"),
        ("moisture 1.4900 --corrected", "18.60 % water, 1.49000 at 20 °C\n"),
        ("moisture 18.6 --scale water --temperature 68F", "18.60 % water, 1.49000 at 20 °C\n"),
        (
            "moisture 80 --scale sucrose --corrected",
            f"18.32 % water, 1.49071 at 20 °C\n{FROM_MEMORY}",
        ),
        ("keeping 18.4", f"may ferment\n{SECOND_HAND}"),
        ("keeping 18.4 --yeast 8", f"keeps a year\n{SECOND_HAND}"),
        ("keeping 18.4 --yeast 11", f"may ferment\n{SECOND_HAND}"),
        ("air 18.8 45", f"air dries; in balance with 60.7 % humidity\n{SECOND_HAND}"),
        # By hand: 20 of 20 to 50 days to 30 mg/kg; half-lives at 39 and 41 °C are 37.3 and 26.0
        # days, between those of the table on a logarithmic scale.
        (
            "heat 40=480 --hmf 4 --diastase 16",
            "HMF 16.0 to 34.0 mg/kg\ndiastase 9.4 to 11.0\n"
            "A band for choosing what to have measured; it certifies nothing.\n",
        ),
        (
            "dip --moisture 17 --width 1000 --dip 1000",
            f"785 l, about 1{GAP}116.2 kg\n{FROM_MEMORY}",
        ),
        # Bounds of the classes: United States Standards of 1985, table I (secondary).
        ("colour 8", f"Water White\n{SECOND_HAND}"),
        ("colour 8.1", f"Extra White\n{SECOND_HAND}"),
        ("colour 0.595 --as density", f"Extra Light Amber\n{SECOND_HAND}"),
        ("colour 10 --as transmittance", f"Light Amber\n{SECOND_HAND}"),
        # 3.2 % a degree: value from memory.
        ("conductivity 640 --temperature 22.5", f"0.589 mS/cm at 20 °C\n{FROM_MEMORY}"),
        # Worked example at 123foodscience.com (secondary).
        ("gravity 28.4773 54.8809 65.2718", "1.3935\n"),
        ("dip --moisture 17 --net 1421.1", f"1{GAP}000 l, about 1{GAP}421.1 kg\n{FROM_MEMORY}"),
        (
            "blend 300=17.2=12 200=19.4=64",
            "500.0 kg of honey\n18.08 % water (may ferment), 409.6 kg of solids\n"
            "colour 12 mm to 64 mm, Extra White to Light Amber\n",
        ),
        (
            "blend 300=17.2 200=19.4 --limits canada-1",
            "500.0 kg of honey\n18.08 % water (may ferment), 409.6 kg of solids\n"
            "moisture at most 17.8 %: unknown\n",
        ),
        (
            "blend 300=17.2 200=19.4 --limits canada-1 --kind blossom",
            "500.0 kg of honey\n18.08 % water (may ferment), 409.6 kg of solids\n"
            "moisture at most 17.8 %: fail\n",
        ),
        (
            "blend 300=17.2 200=19.4 --limits us-a",
            "500.0 kg of honey\n18.08 % water (may ferment), 409.6 kg of solids\n"
            "moisture at most 18.6 %: unverified\nsolids at least 81.4 %: unverified\n",
        ),
        ("blend 300=17.2 200=19.4 --unit lb", None),
        (
            "readings 17.4 17.4 17.5 17.3 17.4 19.8",
            "mean 17.80 %, spread 0.98 %, 17.3 % to 19.8 %\n"
            "19.8 % does not belong: read it again; without it 17.40 %\n",
        ),
        (
            "interval 2026-04-10 14d",
            "24 Apr 2026, by the interval as it was typed.\n"
            "Follow the label where you are, and your local code.\n",
        ),
    ],
)
def test_it_answers_in_words(bare: Terminal, words: str, said: str | None) -> None:
    shown = bare.do("reckon", *words.split())
    assert shown == (
        said or "500.0 lb of honey\n18.08 % water (may ferment), 409.6 lb of solids\n"
    )


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        (
            "moisture 1.4900 --corrected",
            {"moisture": 1_860, "index_millionths": 1_490_000, "verified": True},
        ),
        ("keeping 17", {"class": "keeps", "keeps_a_year": None}),
        ("air 17.4 58", {"air": "holds", "balance_humidity": 5_800}),
        ("dip --moisture 17 --net 0", {"volume_ml": 0, "grams": 0, "grams_a_litre": 1_421}),
        (
            "blend 1=17=12 1=19=14",
            {"grams": 2_000, "moisture": 1_800, "solids_g": 1_640, "colour": [120, 140]}
            | {"limits": []},
        ),
        (
            "readings 17 18",
            {"mean": 1_750, "spread": 71, "odd": None, "mean_without": None},
        ),
        ("interval 2026-04-10 14d", {"first_day": "2026-04-24"}),
    ],
)
def test_it_answers_programs(bare: Terminal, words: str, answer: dict[str, object]) -> None:
    assert bare.json("reckon", *words.split()) == answer


def test_bands_for_programs(bare: Terminal) -> None:
    answer = bare.json("reckon", "heat", "40=480", "--diastase", "16")
    assert answer["hmf"] == pytest.approx([12, 30])
    assert len(answer["diastase"]) == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("moisture", "1.49"),
            "Say how warm the honey was on the prism, or that the instrument corrects by itself.",
        ),
        (
            ("air", "15", "40"),
            "Honey of 15.0 % in air of 40.0 % is outside the table, 16.1 % to 33.9 % water and "
            "52.0 % to 81.0 % humidity: read both again.",
        ),
        (("moisture", "149"), "149 cannot be a refractive index: type a figure from 1 to 2."),
        (
            ("dip", "--moisture", "17", "--net", "5", "--dip", "100"),
            "Say a weight with --net, or a tank's --width and its --dip.",
        ),
        (
            ("heat", "35"),
            "35 is not degrees=hours, such as 35=72: put an equals sign between, without blanks.",
        ),
        (
            ("blend", "300="),
            "300= is not net=moisture or net=moisture=colour, such as 300=17.2=12: put an equals "
            "sign between, without blanks.",
        ),
        (
            ("interval", "10 Apr", "14 days"),
            "Type the day it came out with its year, such as 10 Apr 2026.",
        ),
        (
            ("interval", "yesterday", "14 days"),
            "Type the day it came out with its year, such as 10 Apr 2026.",
        ),
    ],
)
def test_what_cannot_be_is_refused(bare: Terminal, words: tuple[str, ...], said: str) -> None:
    assert bare.refused("reckon", *words).strip() == said
