"""Whether honey keeps, in the terminal, where no house is."""

import pytest

from tests.support.terminal import Terminal

FALLING = ("0=19.6", "6=19.4", "12=19.2", "18=19.0", "24=18.8")


def test_hours_to_dry_are_told_as_a_band(bare: Terminal) -> None:
    assert bare.do("reckon", "dry", "18.0", *FALLING) == (
        "Likely 24 hours after the last reading, 17 to 36; 0.80 % a day.\n"
        "Read it again before you rely on it: drying slows down towards the end.\n"
    )
    answer = bare.json("reckon", "dry", "18.0", *FALLING)
    assert answer["a_day"] == pytest.approx(80)
    assert answer["hours"]["likely"] == pytest.approx(24)
    assert bare.do("reckon", "dry", "19", *FALLING) == "It is there already.\n"


def test_hours_to_dry_are_refused_where_the_trend_or_the_air_says_no(bare: Terminal) -> None:
    assert "do not say that it dries" in bare.refused(
        "reckon", "dry", "18", "0=19", "6=19", "9=19"
    )
    # Air of 62 % is in balance with 19.5 % (Martin 1939, secondary): it cannot come to 18 %.
    damp = bare.refused("reckon", "dry", "18", *FALLING, "--humidity", "62")
    assert damp.startswith("The air as it is brings honey no lower than 19.5 %")
    # Beyond 81 % the table says nothing, and below 52 % only that honey comes below 16.1 %.
    assert bare.refused("reckon", "dry", "18", *FALLING, "--humidity", "90").startswith(
        "Honey of 18.0 % in air of 90.0 % is outside the table, 16.1 % to 33.9 % water"
    )
    assert "is outside the table" in bare.refused(
        "reckon", "dry", "16", *FALLING, "--humidity", "45"
    )
    assert bare.do("reckon", "dry", "18", *FALLING, "--humidity", "45").startswith("Likely 24 h")
    assert bare.refused("reckon", "dry", "18", "0").strip() == (
        "0 is not hour=moisture, such as 6=19.4: put an equals sign between, without blanks."
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("24", "in time; 96 hours until damage by larvae is likely\n"),
        ("80 --humidity 55", "hurry; 40 hours until damage by larvae is likely\n"),
        (
            "80 --humidity 45 --humidity 49",
            "held back by dry air; 40 hours until damage by larvae is likely\n",
        ),
        ("80 --humidity 45 --humidity 50", "hurry; 40 hours until damage by larvae is likely\n"),
    ],
)
def test_the_clock_of_waiting_supers(bare: Terminal, words: str, said: str) -> None:
    assert bare.do("reckon", "beetles", *words.split()) == said


def test_the_clock_for_programs(bare: Terminal) -> None:
    assert bare.json("reckon", "beetles", "130") == {"state": "late", "left": 0}
