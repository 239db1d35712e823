import hashlib
import json
import unicodedata
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger import canonical
from honeyledger.ledger.entry import Act, Entry, Lot, Origin, Posting

ENTRY = Entry(
    id=7,
    kind="fill",
    act=Act(
        happened=Moment(1_784_882_400_000, 120, "Europe/Berlin"),
        operator="O26-0001-X",
        station='scale "2"',
        command="command-7",
        run="R26-0003-P",
        unsure_ms=60_000,
    ),
    recorded_ms=1_784_882_401_000,
    part=2,
    facts={"said": {"wörd": "Größe", "list": [1, "a"]}, "effects": {}},
    lots=(Lot(4, "T26-0001-T", "T", 7, 30, 2026, {"vessel": "E26-0001-V", "a": 1}),),
    postings=(Posting(1, 4, "difference", -30), Posting(2, 4, "vessel/E26-0001-V", 30)),
    origins=(Origin(1, 4, 2, 30), Origin(2, 4, 3, 0, late=True)),
)


def sha256(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def test_sha_256_of_the_standards_example() -> None:
    # FIPS 180-4; the example "abc" is from NIST's examples with intermediate values.
    assert canonical.digest_of("abc") == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )


def test_the_seal_is_what_the_rule_says_written_out_by_hand() -> None:
    header = (
        '{"command":["command-7",2],"happened":[1784882400000,120,"Europe/Berlin"],"id":7,'
        '"kind":"fill","operator":"O26-0001-X","recorded":1784882401000,"reverses":0,'
        '"run":"R26-0003-P","station":"scale \\"2\\"","unsure":60000}'
    )
    facts = '{"effects":{},"said":{"list":[1,"a"],"wörd":"Größe"}}'
    attributes = '{\\"a\\":1,\\"vessel\\":\\"E26-0001-V\\"}'
    lots = f'[[4,"T26-0001-T","T",7,30,2026,"{attributes}"]]'
    postings = '[[1,4,"difference",-30],[2,4,"vessel/E26-0001-V",30]]'
    origins = "[[1,4,2,30,0],[2,4,3,0,1]]"
    parts = [sha256(text) for text in (facts, lots, postings, origins)]
    seal = canonical.seal(ENTRY, "ledger-1")
    assert [seal.facts, seal.lots, seal.postings, seal.origins] == parts
    assert seal.previous == "ledger-1"
    assert seal.digest == sha256("\n".join(["ledger-1", header, *parts]))


CHANGES: list[dict[str, Any]] = [
    {"id": 8},
    {"kind": "load"},
    {"act": replace(ENTRY.act, happened=Moment(1, 120, "Europe/Berlin"))},
    {"act": replace(ENTRY.act, happened=Moment(1_784_882_400_000, 60, "Europe/Berlin"))},
    {"act": replace(ENTRY.act, happened=Moment(1_784_882_400_000, 120, "UTC"))},
    {"act": replace(ENTRY.act, operator="O26-0002-X")},
    {"act": replace(ENTRY.act, station="x")},
    {"act": replace(ENTRY.act, command="x")},
    {"act": replace(ENTRY.act, run="")},
    {"act": replace(ENTRY.act, unsure_ms=0)},
    {"recorded_ms": 1},
    {"part": 1},
    {"reverses": 3},
    {"facts": {}},
    {"lots": (replace(ENTRY.lots[0], season=2025),)},
    {"lots": (replace(ENTRY.lots[0], attributes={}),)},
    {"postings": ()},
    {"origins": (ENTRY.origins[0],)},
    {"origins": (ENTRY.origins[0], Origin(2, 4, 3, 0, late=False))},
]


@pytest.mark.parametrize("change", CHANGES)
def test_every_part_counts(change: dict[str, Any]) -> None:
    changed = replace(ENTRY, **change)
    assert canonical.seal(changed, "x").digest != canonical.seal(ENTRY, "x").digest


def test_the_digest_before_counts() -> None:
    assert canonical.seal(ENTRY, "a").digest != canonical.seal(ENTRY, "b").digest


def test_equal_looking_text_is_one_text() -> None:
    # Unicode Standard Annex 15: e with acute, composed and decomposed.
    composed, decomposed = "\u00e9", "e\u0301"
    assert canonical.text_of([decomposed]) == canonical.text_of([composed]) == f'["{composed}"]'
    assert canonical.text_of({decomposed: 1}) == canonical.text_of({composed: 1})
    told = replace(ENTRY, act=replace(ENTRY.act, station=decomposed))
    same = replace(ENTRY, act=replace(ENTRY.act, station=composed))
    assert canonical.seal(told, "x") == canonical.seal(same, "x")


@pytest.mark.parametrize("value", [1.0, True, None, object(), {1: "a"}, [1, [2.5]], b"a"])
def test_nothing_but_integers_and_text_is_kept(value: object) -> None:
    with pytest.raises(BrokenRule, match=r"the ledger(.s maps)? (keeps|have)"):
        canonical.text_of({"value": value})


VALUES = st.recursive(
    st.integers() | st.text(),
    lambda part: st.lists(part) | st.dictionaries(st.text(), part),
    max_leaves=20,
)


@given(VALUES)
def test_a_text_read_back_is_the_same_text(value: object) -> None:
    text = canonical.text_of(value)
    assert canonical.text_of(json.loads(text)) == text
    assert unicodedata.is_normalized("NFC", text) or "\\u" in text


@given(
    st.tuples(
        *(st.integers(), st.text(), st.integers(), st.integers(), st.text(), st.integers()),
        *(st.text(), st.text(), st.text(), st.integers(), st.text(), st.integers()),
        st.integers(),
    )
)
def test_the_header_is_written_as_any_other_value_would_be(values: tuple[Any, ...]) -> None:
    number, kind, at, offset, zone, recorded, operator, station, command, *rest = values
    part, run, unsure, reverses = rest
    assert canonical.header_of(values) == canonical.text_of(
        {
            "id": number,
            "kind": kind,
            "happened": [at, offset, zone],
            "recorded": recorded,
            "operator": operator,
            "station": station,
            "command": [command, part],
            "run": run,
            "unsure": unsure,
            "reverses": reverses,
        }
    )


WHOLE = st.integers(-(2**63), 2**63 - 1)
LOTS = st.tuples(WHOLE, st.text(), st.text(), WHOLE, WHOLE, WHOLE, st.text())


@given(
    st.lists(LOTS, max_size=3),
    st.lists(st.tuples(WHOLE, WHOLE, st.text(), WHOLE), max_size=3),
    st.lists(st.tuples(WHOLE, WHOLE, WHOLE, WHOLE, WHOLE), max_size=3),
)
def test_rows_are_written_as_any_other_value_would_be(
    lots: list[Any], postings: list[Any], origins: list[Any]
) -> None:
    expected = [canonical.digest_of(canonical.text_of(rows)) for rows in (lots, postings, origins)]
    assert list(canonical.row_digests(lots, postings, origins)) == expected
