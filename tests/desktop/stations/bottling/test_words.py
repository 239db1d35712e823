"""What the bottling says of claims, net contents, and of what would be recorded."""

from dataclasses import replace

import pytest

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    START,
    WEIGH,
    AtFiller,
    Typed,
    change_facts,
    close_facts,
)
from honeyledger.desktop.stations.bottling.words import (
    claims,
    country_shares,
    done_message,
    look_messages,
    net_message,
    next_step,
    rule_words,
)
from honeyledger.domain.net_contents import checked
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.services.bottling_makeup import Makeup, PartOf
from honeyledger.services.bottling_page import Wanted
from honeyledger.services.house import Said
from tests.desktop.bottling_rig import PRODUCT, Drums

MILL = Ancestor("yard", "Y26-0001-X", "Mill Lane", 0.75, 75_000, ("grams",), False)
FIELD = MILL._replace(code="Y26-0002-X", name="Long Field", share=0.25, grams=25_000)
ONE = Makeup(
    grams=100_000,
    sources=(MILL._replace(share=1.0),),
    countries=(PartOf("CA", 1.0),),
    regions=(PartOf("Fen Edge", 1.0),),
    seasons=(2026,),
    organic=("Mill Lane",),
    not_organic=(),
    is_known=True,
)


def _told(makeup: Makeup) -> list[tuple[Mark, str]]:
    return [(claim.mark, f"{claim.lead} {claim.text}") for claim in claims(makeup)]


def test_one_yard_may_be_claimed_in_every_way() -> None:
    assert _told(ONE) == [
        (Mark.READY, "Single yard: Mill Lane"),
        (Mark.READY, "Single region: Fen Edge"),
        (Mark.READY, "Single country: CA"),
        (Mark.READY, "Organic: every source claims it"),
        (Mark.READY, "Single crop: 2026"),
    ]
    assert claims(None) == ()
    assert claims(ONE, "Product of Canada")[-1].text == "Product of Canada"


def test_a_mixture_says_what_it_is_of() -> None:
    mixed = replace(
        ONE,
        sources=(MILL, FIELD),
        countries=(PartOf("AR", 0.75), PartOf("CA", 0.25)),
        regions=(PartOf("Fen Edge", 0.75), PartOf("", 0.25)),
        seasons=(2025, 2026),
        not_organic=("Long Field",),
    )
    assert _told(mixed) == [
        (Mark.NOTE, "Not a single yard: 2 sources in reach"),
        (Mark.NOTE, "Not a single region: Fen Edge, not known"),
        (Mark.NOTE, "Countries: AR 75.0 %, CA 25.0 %"),
        (Mark.NOTE, "Not organic: not claimed by Long Field"),
        (Mark.NOTE, "Several crops: 2025, 2026"),
    ]


def test_what_is_not_on_record_is_not_claimed() -> None:
    bare = replace(
        ONE,
        countries=(PartOf("", 1.0),),
        regions=(PartOf("", 1.0),),
        organic=(),
        not_organic=("Mill Lane",),
    )
    assert [words for _, words in _told(bare)[1:4]] == [
        "Region not known: none on record",
        "Country not known: none on record",
        "Not organic: no source claims it",
    ]


def test_honey_nobody_can_name_is_a_warning() -> None:
    unknown = replace(ONE, is_known=False, countries=(PartOf("CA", 0.9), PartOf("", 0.1)))
    told = _told(unknown)
    assert told[0] == (Mark.WARNING, "Source not known: find it before they are sold")
    assert told[2] == (Mark.WARNING, "Countries: CA 90.0 %, not known 10.0 %")


def test_only_a_few_names_are_told_and_shares_add_up() -> None:
    names = tuple(f"Yard {n}" for n in range(5))
    mixed = replace(ONE, not_organic=names)
    assert _told(mixed)[3][1] == "Not organic: not claimed by Yard 0, Yard 1, Yard 2 and 2 more"
    thirds = [PartOf(name, 1 / 3) for name in "ABC"]
    assert country_shares(thirds) == "A 33.4 %, B 33.3 %, C 33.3 %"


@pytest.mark.parametrize(
    ("weights", "mark", "sentence"),
    [
        (
            [501_000, 502_000],
            Mark.READY,
            "In order: mean 501.5 g, declared 500 g. Check your local rule.",
        ),
        (
            [499_000, 500_000],
            Mark.WARNING,
            "Mean 0.5 g low. Fill more: the mean may not be below 500 g.",
        ),
        (
            [499_000, 500_900] * 10,
            Mark.WARNING,
            "Mean 0.1 g low. It may be chance; weigh more jars, or fill a little more.",
        ),
        (
            [510_000, 484_000, 484_500],
            Mark.WARNING,
            "2 jars below 485.0 g. No more than 1 of so many may be. Set the filler, and sort the "
            "jars.",
        ),
        (
            [520_000, 469_000],
            Mark.WARNING,
            "One jar is below 470.0 g. Such a jar may not go out. Take it out, and set the "
            "filler.",
        ),
        (
            [520_000, 469_000, 469_500],
            Mark.WARNING,
            "2 jars are below 470.0 g. Such a jar may not go out. Take it out, and set the "
            "filler.",
        ),
    ],
)
def test_what_the_jars_weighed_say(weights: list[int], mark: Mark, sentence: str) -> None:
    message = net_message(checked(500, weights))
    assert (message.mark, message.sentence) == (mark, sentence)


def test_the_rule_is_named_with_its_source() -> None:
    assert rule_words(checked(500, [])) == (
        "Average-weight rule, Directive 76/211/EEC and United Kingdom regulations of 2006. Short "
        "below 485.0 g, far short below 470.0 g. Check your local rule."
    )


def test_the_empty_slot_says_the_next_step(drums: Drums) -> None:
    assert next_step(None, Typed()) == "Choose the product, then scan its drums in their order."
    assert next_step(None, Typed(order=("D",))).startswith("Scan the next drum")
    drums.started()
    page = drums.page()
    assert next_step(page, Typed(WEIGH)) == "Weigh filled jars. Scan Drum 1 when it is empty."
    for kind in (CHANGE, CLOSE, LABELS, LEFT):
        assert next_step(page, Typed(kind)).endswith((".", "?"))


def _looked(drums: Drums, typed: Typed) -> list[str]:
    page = drums.page()
    assert page.sheet is not None
    read = change_facts if typed.kind == CHANGE else close_facts
    facts = read(typed, page.sheet, AtFiller())
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    return [one.sentence for one in look_messages(entry, page, typed, AtFiller(), facts)]


def test_what_would_be_filled_and_what_is_left(drums: Drums) -> None:
    code = drums.started()
    assert _looked(drums, Typed(CHANGE, jars="80")) == [
        "80 jars: 40.0 kg from Drum 1, 60.0 kg left there."
    ]
    drums.tell(ChangeOver(code, jars=80))
    assert _looked(drums, Typed(CLOSE, jars="100")) == [
        "20 jars: 10.0 kg from Drum 1, 50.0 kg left there."
    ]
    assert _looked(drums, Typed(CHANGE, jars="190", empty="yes")) == [
        "110 jars: 55.0 kg from Drum 1, nothing left there."
    ]
    assert _looked(drums, Typed(CHANGE, jars="120", empty="yes"))[0] == (
        "40 jars typed, 120 by mass: is it empty, and the count right?"
    )


def test_what_the_ledger_would_note_is_a_warning(drums: Drums) -> None:
    drums.started()
    page = drums.page()
    assert page.sheet is not None
    typed = Typed(CLOSE, jars="210")
    facts = close_facts(typed, page.sheet, AtFiller())
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    first = look_messages(entry, page, typed, AtFiller(), facts)[0]
    assert first.mark is Mark.WARNING
    assert first.sentence == (
        "The books saw 100.0 kg in Drum 1; the missing 5.0 kg is booked as weighing difference."
    )


def test_before_a_start_holds_are_told(drums: Drums) -> None:
    drums.tell(PutOnHold(drums.second, "taste"))
    page = drums.page(Wanted(order=(drums.first, drums.second)))
    facts = ChangeOver(product=PRODUCT, feed=drums.first)
    entry = drums.rig.house.preview(facts, Said(operator=drums.operator))
    (held,) = look_messages(entry, page, Typed(START), AtFiller(), facts)
    assert (held.mark, held.sentence) == (Mark.HOLD, f"On hold. {drums.second}: taste")


def test_what_was_recorded_is_said_and_can_be_reversed(drums: Drums) -> None:
    page = drums.page()
    done = drums.rig.house.record(ChangeOver(product=PRODUCT, feed=drums.first))
    message = done_message(done, page, Typed(START, product=PRODUCT))
    code = done.given[0]
    assert message.sentence == f"Bottling {code} of Clover 500 g has begun."
    assert (message.action, message.about) == ("Reverse", done.entries[0].id)
    page = drums.page()
    done = drums.rig.house.record(ChangeOver(code, jars=80))
    assert done_message(done, page, Typed(CHANGE)).lead == "80 jars so far."
    done = drums.rig.house.record(ChangeOver(code, jars=80, feed=drums.second))
    told = done_message(done, page, Typed(CHANGE, next=drums.second)).lead
    assert told == "80 jars so far; Drum 2 runs now."
    done = drums.rig.house.record(Bottle(code, 100))
    told = done_message(done, page, Typed(CLOSE)).lead
    assert told == f"{code} is made: 100 jars of Clover 500 g, 50.0 kg."
    assert done_message(done, page, Typed(LEFT, lot="D26")).lead == "D26 is weighed."
