"""The dock: supers come in from yards, one line one pull, at estimated grams."""

import pytest

from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Count, Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import (
    attributes,
    code_in,
    holding,
    mark,
    postings,
    refusal_of,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards and a tank; a medium super weighs 6 kg empty and usually holds 14.8 kg."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Tank 1")
    return house


def test_a_weighed_pallet(house: BuiltHouse) -> None:
    """Gross 235 kg less 15 kg of pallet and lid less ten empties at 6 kg is 160 kg of honey."""
    done = house.do(Receive((Line("Creek", 10, crew="Ana, Ben"),), gross_g=235_000))
    (pull,) = done.codes
    tag = code_in(done, "G")
    assert postings(house, done) == {(pull, "Creek", -160_000), (pull, f"pallet/{tag}", 160_000)}
    assert holding(house, pull)[f"pallet/{tag}"] == (160_000, 10)
    kept = attributes(house, pull)
    assert (kept["basis"], kept["count"], kept["pulled"], kept["crew"]) == (
        "weighed",
        10,
        "2026-07-24",
        "Ana, Ben",
    )
    assert mark(house, f"pallet/{tag}", "condition") == "sealed"
    assert done.notes == ()


def test_a_counted_pallet_is_estimated_by_what_a_super_usually_holds(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 12),)))
    (pull,) = done.codes
    assert holding(house, pull)[f"pallet/{code_in(done, 'G')}"] == (12 * 14_800, 12)
    assert attributes(house, pull)["basis"] == "counted"


def test_several_yards_on_one_tag_share_the_scale_by_their_usual_honey(house: BuiltHouse) -> None:
    """100 001 g over 2 medium (29.6 kg) and 1 deep (25.5 kg): largest remainder, to the gram."""
    house.do(Register("box", {"name": "deep", "honey_g": 25_500, "tare_g": 8_500}))
    lines = (Line("Creek", 2), Line("Hill", 1, box="deep"))
    done = house.do(Receive(lines, gross_g=100_001 + 15_000 + 2 * 6_000 + 8_500))
    creek, hill = done.codes
    tag = f"pallet/{code_in(done, 'G')}"
    # 100 001 * 29.6 / 55.1 = 53 721.05..., 100 001 * 25.5 / 55.1 = 46 279.9...
    assert standing(house, tag) == {creek: 53_721, hill: 46_280}


def test_one_yard_twice_on_a_tag_is_two_pulls(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 4, crew="Ana"), Line("Creek", 6, crew="Ben"))))
    assert len(done.codes) == 2


def test_the_count_against_the_pull_sheet(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 10, sheet=12), Line("Hill", 8, sheet=7))))
    assert done.notes == (
        "Creek: 10 supers came, the pull sheet says 12. 2 missing: count again, or ask the crew.",
        "Hill: 8 supers came, the pull sheet says 7. 1 too many: count again, or ask the crew.",
    )
    assert house.do(Receive((Line("Creek", 10, sheet=10),))).notes == ()


def test_wet_and_green_honey_is_said(house: BuiltHouse) -> None:
    wet = house.do(Receive((Line("Creek", 5), Line("Hill", 5)), moisture=18_10))
    assert wet.notes == ("Above 18 %: dry first, wet honey ferments.",)
    assert [mark(house, pull, "moisture") for pull in wet.codes] == [18_10, 18_10]
    assert house.do(Receive((Line("Creek", 5),), moisture=18_00)).notes == ()
    green = house.do(Receive((Line("Creek", 5),), condition="green"))
    assert green.notes == ("Green honey: read its moisture, and dry it first.",)
    read = house.do(Receive((Line("Creek", 5),), condition="green", moisture=17_50))
    assert read.notes == ()


def test_a_day_of_the_pull_before_the_day_it_came_in(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 5, pulled="2026-07-22"),)))
    assert attributes(house, done.codes[0])["pulled"] == "2026-07-22"
    late = Receive((Line("Creek", 5, pulled="2026-07-25"),))
    assert turned_down(house, late) == (
        "Creek cannot have been pulled on 2026-07-25, after it came in on 2026-07-24. Correct one "
        "of the two days."
    )
    refusal = refusal_of(house, Receive((Line("Creek", 5, pulled="24.7.2026"),)))
    assert (refusal.key, refusal.field) == ("not-a-day", "pulled")


def test_an_empty_tag_is_used_again_but_not_one_with_supers(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 100_000)
    said = turned_down(house, Receive((Line("Hill", 5),), pallet=tag))
    assert said == f"{tag} is already the tag of a pallet here. Take the next tag."
    house.do(Load(tag, "Tank 1"))
    done = house.do(Receive((Line("Hill", 5),), pallet=tag))
    assert standing(house, f"pallet/{tag}") == {done.codes[0]: 5 * 14_800}


@pytest.mark.parametrize(
    ("facts", "field", "said"),
    [
        (Receive(()), "yard", "Name the yard and the number of supers first."),
        (
            Receive((Line("Creek", 0),)),
            "count",
            "Count the supers of Creek: a pull has at least one.",
        ),
        (
            Receive((Line("Creek", -4),)),
            "count",
            "Count the supers of Creek: a pull has at least one.",
        ),
        (
            Receive((Line("Creek", 10),), gross_g=75_000),
            "gross_g",
            "Gross 75.0 kg is not above the tare of 75.0 kg (pallet, lid and 10 empty supers). "
            "Weigh again, or check the box type.",
        ),
        (
            Receive((Line("Creek", 10),), gross_g=-1),
            "gross_g",
            "Gross 0.0 kg is not above the tare of 75.0 kg (pallet, lid and 10 empty supers). "
            "Weigh again, or check the box type.",
        ),
        (
            # A gram of honey cannot be of two yards.
            Receive((Line("Creek", 5), Line("Hill", 5)), gross_g=75_001),
            "gross_g",
            "Gross 75.0 kg is not above the tare of 75.0 kg (pallet, lid and 10 empty supers). "
            "Weigh again, or check the box type.",
        ),
        (
            Receive((Line("Creek", 10),), gross_g=200_000, tare_g=-5_000),
            "tare_g",
            "A tare of −5.0 kg cannot be: weigh the empty container, or leave it at 0.",
        ),
        (
            Receive((Line("Creek", 10),), condition="wet"),
            "condition",
            "wet is no condition: say sealed, mixed or green.",
        ),
        (
            Receive((Line("Creek", 10),), moisture=31_00),
            "moisture",
            "31.0 % is not a honey's moisture: refractometers read 13 to 25 %. Read it again.",
        ),
        (
            Receive((Line("Moor", 10),)),
            "yard",
            "There is no yard called Moor. Choose one, such as Creek or Hill, or register it "
            "first.",
        ),
        (
            Receive((Line("Creek", 10, box="deep"),)),
            "box",
            "There is no box type called deep. Choose one, such as medium, or register it first.",
        ),
    ],
)
def test_what_the_dock_refuses(house: BuiltHouse, facts: Receive, field: str, said: str) -> None:
    assert turned_down(house, facts) == said
    assert refusal_of(house, facts).field == field


def test_a_box_nobody_has_described_must_be_weighed(house: BuiltHouse) -> None:
    house.do(Register("box", {"name": "odd"}))
    assert turned_down(house, Receive((Line("Creek", 10), Line("Hill", 2, box="odd")))) == (
        "Nobody has said what a super of type odd usually holds. Weigh the pallet, or put "
        "the usual honey into the box's record."
    )
    done = house.do(Receive((Line("Creek", 3), Line("Hill", 2, box="odd")), gross_g=83_000))
    tag = f"pallet/{code_in(done, 'G')}"
    assert list(standing(house, tag).values()) == [30_000, 20_000]


def test_a_count_corrected_takes_its_honey_from_the_yard_or_back_to_it(house: BuiltHouse) -> None:
    pull, tag = house.pull("Creek", 160_000)
    fewer = house.do(Count(tag, 8))
    assert postings(house, fewer) == {(pull, "Creek", 32_000), (pull, f"pallet/{tag}", -32_000)}
    assert holding(house, pull)[f"pallet/{tag}"] == (128_000, 8)
    more = house.do(Count(tag, 12))
    assert postings(house, more) == {(pull, "Creek", -64_000), (pull, f"pallet/{tag}", 64_000)}
    assert holding(house, pull)[f"pallet/{tag}"] == (192_000, 12)


def test_a_count_of_several_pulls_is_shared_unless_one_is_named(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 4), Line("Hill", 6))))
    creek, hill = done.codes
    tag = code_in(done, "G")
    house.do(Count(tag, 5))
    pieces = [holding(house, pull)[f"pallet/{tag}"][1] for pull in (creek, hill)]
    assert pieces == [2, 3]
    house.do(Count(tag, 7, pull=hill))
    pieces = [holding(house, pull)[f"pallet/{tag}"][1] for pull in (creek, hill)]
    assert pieces == [2, 7]


def test_a_count_after_an_amendment_goes_back_to_the_yard_it_is_from_now(
    house: BuiltHouse,
) -> None:
    pull, tag = house.pull("Creek", 160_000)
    house.do(Amend(pull, "sheet misread", yard="Hill"))
    house.do(Count(tag, 12))
    assert holding(house, pull) == {
        "Hill": (-192_000, 0),
        f"pallet/{tag}": (192_000, 12),
    }


def test_what_a_count_refuses(house: BuiltHouse) -> None:
    _, tag = house.pull("Creek", 160_000)
    other, elsewhere = house.pull("Hill", 160_000)
    (there,) = standing(house, f"pallet/{tag}")
    for count in (0, -3):
        assert turned_down(house, Count(tag, count)) == (
            f"Count at least one super on {tag}. If the rest was loaded or thrown away, record "
            "that."
        )
    assert turned_down(house, Count(tag, 5, pull=other)) == (
        f"Nothing of {other} is on {tag}. Look at the tag again: it has {there}."
    )
    house.do(Load(elsewhere, "Tank 1"))
    entry = house.house.ask(lambda view: view.head().entry)
    assert turned_down(house, Count(elsewhere, 5)) == (
        f"Nothing stands on {elsewhere} any more: it was loaded with entry {entry}. Scan the tag "
        "of the next pallet."
    )


def test_a_tag_whose_receipt_was_reversed_has_nothing_on_it(house: BuiltHouse) -> None:
    done = house.do(Receive((Line("Creek", 10),)))
    tag = code_in(done, "G")
    house.do(Reverse(done.entries[0].id, "other house"))
    assert turned_down(house, Load(tag, "Tank 1")) == (
        f"Nothing stands on {tag} any more. Scan the tag of the next pallet."
    )
