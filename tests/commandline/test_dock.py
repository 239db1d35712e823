"""The dock: what comes in, what is refused, and that a refusal changes nothing."""

import pytest

from tests.support.terminal import Terminal


def test_a_pallet_of_two_yards_makes_two_pulls_and_a_tag(terminal: Terminal) -> None:
    words = ("receive", "Mill Lane", "24", "--and", "Long Field", "12", "--gross", "800")
    done = terminal.json(*words, "--moisture", "17,4", "--crew", "Ann and Bo")
    letters = [code[0] for code in done["codes"]]
    assert sorted(letters) == ["G", "S", "S"]
    # 800 kg less 36 empty supers of 6 kg and the pallet's 15 kg, by 24 to 12 supers.
    assert [lot["made_g"] for lot in done["lots"]] == [379_333, 189_667]
    rows = terminal.json("stock")
    assert [(row["kind"], row["pieces"]) for row in rows] == [("S", 24), ("S", 12)]


def test_a_box_may_stand_behind_the_count(terminal: Terminal) -> None:
    done = terminal.json("receive", "Mill Lane", "10 deep", "--and", "Mill Lane", "4")
    assert [lot["made_g"] for lot in done["lots"]] == [10 * 25_500, 4 * 14_800]


def test_the_pull_sheet_is_compared(terminal: Terminal) -> None:
    done = terminal.json("receive", "Mill Lane", "22", "--sheet", "24")
    assert done["notes"][0]["key"] == "count-differs"


def test_split_join_and_count(terminal: Terminal) -> None:
    tag = terminal.pallet(supers="24")
    other = terminal.given("G", "split", tag, "10")
    assert [row["pieces"] for row in terminal.json("stock")] == [14, 10]
    terminal.do("join", other, tag)
    assert [row["pieces"] for row in terminal.json("stock")] == [24]
    terminal.do("count", tag, "23")
    assert [row["pieces"] for row in terminal.json("stock")] == [23]


def test_a_decimal_comma_is_read(terminal: Terminal) -> None:
    done = terminal.json("receive", "Mill Lane", "1", "--gross", "38,5", "--tare", "12,5")
    assert done["lots"][0]["made_g"] == 38_500 - 12_500 - 6_000


def test_pounds_are_read_where_they_are_said(terminal: Terminal) -> None:
    done = terminal.json(
        "receive", "Mill Lane", "1", "--gross", "100", "--tare", "0", "--unit", "lb"
    )
    assert done["lots"][0]["made_g"] == 45_359 - 6_000
    done = terminal.json("receive", "Mill Lane", "1", "--gross", "100 lb", "--tare", "0")
    assert done["lots"][0]["made_g"] == 45_359 - 6_000


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("receive", "Mill Lane", "24", "--gross", "1.234"),
            "1.234 can mean 1 kg 234 g or 1234 kg: type 1.2340 or 1234.",
        ),
        (
            ("receive", "Mill Lane", "24", "--gross", "120"),
            "Gross 120.0 kg is not above the tare of 159.0 kg (pallet, lid and 24 empty supers). "
            "Weigh again, or check the box type.",
        ),
        (
            ("receive", "Mill Lane", "24", "--at", "25 Jul 2026 10:00"),
            "25 Jul 2026 10:00 is in the future, for it is now 24 Jul 2026 08:50: type when it "
            "happened.",
        ),
        (
            ("receive", "Mile Lane", "24"),
            "There is no yard called Mile Lane. Choose one, such as Mill Lane, or register it "
            "first.",
        ),
        (
            ("receive", "Mill Lane", "some"),
            "some is not a whole number: type a number of supers, such as 24.",
        ),
        (
            ("receive", "Mill Lane", "24", "--condition", "runny"),
            "runny is no condition: say sealed, mixed or green.",
        ),
        (
            ("split", "G26-0001-3", "4"),
            "G26-0001-3 is not a code of this house. Scan it again, or look it up by name.",
        ),
    ],
)
def test_what_does_not_fit_gets_a_sentence_and_changes_nothing(
    terminal: Terminal, words: tuple[str, ...], sentence: str
) -> None:
    assert terminal.refused(*words) == sentence


def test_a_pull_is_not_later_than_its_arrival(terminal: Terminal) -> None:
    said = terminal.refused("receive", "Mill Lane", "24", "--pulled", "30 Jul 2026")
    assert said.startswith("Mill Lane cannot have been pulled on")


def test_a_misread_yard_code_is_answered_with_the_near_one(terminal: Terminal) -> None:
    said = terminal.refused("receive", "Y26-0001-K", "24")
    assert "Was it Y26-0001-P" in said
