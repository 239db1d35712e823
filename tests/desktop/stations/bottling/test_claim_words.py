"""What the bottling says of claims."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.claim_words import (
    claims,
    country_shares,
    label_messages,
    label_warning,
)
from honeyledger.domain.claims import Claims, CountryShare, Source, judged
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.bottling_makeup import Makeup
from honeyledger.services.claims import NOT_ALL_ORGANIC, NOT_FOR_MARKET
from honeyledger.services.label_marks import LabelWarning

MILL = Ancestor("yard", "Y26-0001-X", "Mill Lane", 1.0, 75_000, ("grams",), False)
ONE = Source("S26-0001-A", "Mill Lane", 0.75, "Mill Lane", "Fen", "clover", 2026, True)
TWO = Source("S26-0002-B", "Long Field", 0.25, "Long Field", "", "", 2025, None)
IN_CANADA = (CountryShare("Canada", 1000, 1000, 1000),)
CANADIAN = (("Canada", 1.0),)


def _makeup(
    *sources: Source, countries: tuple[CountryShare, ...] = IN_CANADA, is_known: bool = True
) -> Makeup:
    return Makeup(100_000, (MILL,), Claims(judged(sources), countries), is_known)


def _told(makeup: Makeup) -> list[tuple[Mark, str]]:
    return [(claim.mark, f"{claim.lead} {claim.text}") for claim in claims(makeup)]


def _in_canada(source: Source) -> Source:
    return Source(
        **{name: getattr(source, name) for name in source.__slots__} | {"countries": CANADIAN}
    )


def test_one_yard_may_be_claimed_in_every_way() -> None:
    assert _told(_makeup(_in_canada(ONE))) == [
        (Mark.READY, "Single yard: Mill Lane"),
        (Mark.READY, "Single region: Fen"),
        (Mark.READY, "Floral kind: clover"),
        (Mark.READY, "Single crop: 2026"),
        (Mark.READY, "Organic: every source claims it"),
        (Mark.READY, "Single country: Canada"),
    ]
    assert claims(None) == ()
    assert claims(_makeup(ONE), "Product of Canada")[-1].text == "Product of Canada"


def test_a_mixture_says_what_forbids_a_claim_and_which_lots_decide() -> None:
    countries = (CountryShare("AR", 750, 0, 1000), CountryShare("CA", 250, 0, 1000))
    rows = claims(_makeup(ONE, TWO, countries=countries))
    assert [f"{row.lead} {row.text}" for row in rows] == [
        "Not a single yard: Mill Lane, Long Field",
        "Region not proved: Long Field does not say",
        "Floral kind not proved: Long Field does not say",
        "Several crops: 2026, 2025",
        "Organic not proved: Long Field does not say",
        "Countries: AR 75.0 %, CA 25.0 %",
    ]
    assert rows[0].more == "Decided by S26-0002-B: Long Field."
    assert rows[-1].mark is Mark.WARNING
    assert rows[-1].more == "Of any one jar: AR 0.0 to 100.0 %, CA 0.0 to 100.0 %."


def test_what_is_not_organic_or_not_eligible_is_told_by_its_source() -> None:
    against = Source("S26-0003-C", "Hill", organic=False, not_for=frozenset({"EU"}))
    told = _told(_makeup(against))
    assert (Mark.NOTE, "Not organic: Hill is not") in told
    assert told[-1] == (Mark.WARNING, "Not eligible for EU: Hill")


def test_honey_nobody_can_name_is_a_warning() -> None:
    unknown = Source("S26-0004-D", "source not known", is_known=False)
    nowhere = (CountryShare("", 1000, 1000, 1000),)
    told = _told(_makeup(unknown, countries=nowhere, is_known=False))
    assert told[0] == (Mark.WARNING, "Source not known: find it before they are sold")
    assert told[-1] == (Mark.NOTE, "Country not known: none on record")


def test_only_a_few_names_are_told() -> None:
    many = [Source(f"S26-000{n}-A", f"Yard {n}", yard=f"Yard {n}") for n in range(5)]
    assert _told(_makeup(*many))[0][1] == ("Not a single yard: Yard 0, Yard 1, Yard 2 and 2 more")
    thirds = (CountryShare("A", 334, 334, 334), CountryShare("", 666, 666, 666))
    assert country_shares(thirds) == "A 33.4 %, not known 66.6 %"


def test_a_label_that_would_be_refused_comes_first_and_in_words() -> None:
    against = (
        Refusal(NOT_ALL_ORGANIC, product="Clover", names="Hill", code="what is filled"),
        Refusal(NOT_FOR_MARKET, product="Clover", market="EU", lots="S1", code="what is filled"),
    )
    rows = claims(_makeup(ONE), "", against)
    assert [(row.mark, row.lead, row.text) for row in rows[:2]] == [
        (Mark.REFUSED, "Label refused:", "organic: Hill"),
        (Mark.REFUSED, "Label refused:", "EU: S1"),
    ]
    assert rows[0].more.startswith("The label of Clover says organic, and Hill in what is filled")
    assert [(one.mark, one.sentence) for one in label_messages(against)] == [
        (
            Mark.WARNING,
            f"Label refused: {rows[0].more} Also refused: EU.",
        )
    ]
    assert label_messages(against[:1])[0].text == rows[0].more
    assert label_messages(()) == []


def test_what_a_label_lacks_is_told_with_its_source() -> None:
    seen = label_warning(LabelWarning(phrase("It lacks a day."), "annex X"))
    assert (seen.mark, seen.sentence) == (Mark.WARNING, "It lacks a day. (annex X)")
    told = label_warning(LabelWarning(phrase("It lacks ounces."), "21 CFR", is_verified=False))
    assert (told.mark, told.sentence) == (Mark.NOTE, "It lacks ounces. (21 CFR; unverified)")


def test_several_sources_are_counted_where_there_is_no_room_for_names() -> None:
    many = [Source(f"S26-000{n}-A", f"Yard {n}", yard=f"Yard {n}") for n in range(3)]
    assert _told(_makeup(*many))[4][1] == "Organic not proved: 3 sources do not say"
    against = [Source(f"S26-000{n}-A", f"Yard {n}", organic=False) for n in range(2)]
    assert (Mark.NOTE, "Not organic: 2 sources are not") in _told(_makeup(*against))
