from dataclasses import replace
from typing import Any

import pytest

from honeyledger.domain.moments import Moment
from honeyledger.ledger import audit
from honeyledger.ledger.audit import Chain, Running, Stored
from honeyledger.ledger.canonical import lot_row, origin_row, posting_row, seal, text_of
from honeyledger.ledger.entry import Act, Entry, Lot, Origin, Posting


def entry(number: int, **parts: Any) -> Entry:
    act = Act(Moment(number, 0, "UTC"), "O26-0001-X", "dock", f"command-{number}")
    return Entry(number, "fill", act, number, 1, parts.pop("facts", {}), **parts)


def _before(number: int, previous: str) -> bytes:
    return previous.encode() if number == 1 or previous == "ledger-1" else bytes.fromhex(previous)


def digest_at(one: Stored) -> str:
    return str(one.row[-1].hex())


def stored(one: Entry, previous: str = "ledger-1") -> Stored:
    sealed = seal(one, previous)
    act = one.act
    row = (
        *(one.id, one.kind, act.happened.at_ms, act.happened.offset_min, act.happened.zone),
        *(one.recorded_ms, act.operator, act.station, act.command, one.part, act.run),
        *(act.unsure_ms, one.reverses, text_of(one.facts), _before(one.id, previous)),
        *map(bytes.fromhex, (sealed.facts, sealed.lots, sealed.postings, sealed.origins)),
        bytes.fromhex(sealed.digest),
    )
    return Stored(
        row,
        [lot_row(lot) for lot in one.lots],
        [posting_row(posting) for posting in one.postings],
        [origin_row(origin) for origin in one.origins],
    )


FILL = entry(
    2,
    lots=(Lot(2, "S26-0002-B", "S", 2, 5, 2026), Lot(3, "T26-0001-T", "T", 2, 30, 2026)),
    postings=(
        Posting(1, 3, "difference", -30),
        Posting(2, 3, "vessel/E26-0001-V", 30),
    ),
    origins=(Origin(1, 3, 1, 30), Origin(2, 3, 2, 0, late=True)),
)


def chain(*entries: Entry) -> list[Stored]:
    rows, previous = [], "ledger-1"
    for one in entries:
        rows.append(stored(one, previous))
        previous = digest_at(rows[-1])
    return rows


def followed(rows: list[Stored], head: int, digest: str, **more: Any) -> list[str]:
    walk = Chain("ledger-1", **more)
    broken = [line for one in rows for line in walk.follow(one.row)]
    return broken + walk.end(head, digest)


def test_the_list_of_invariants_is_the_ledgers() -> None:
    assert list(audit.INVARIANTS) == [
        *("balanced", "never-overdrawn", "whole", "ordered", "written-once", "chained"),
        *("rebuilt", "held-means-held", "dry-keeps-solids"),
    ]
    assert all(text.endswith(".") for text in audit.INVARIANTS.values())


def test_a_sound_entry_breaks_nothing() -> None:
    for check in audit.ROW_CHECKS.values():
        assert list(check(stored(FILL))) == []


def test_a_sound_chain_breaks_nothing() -> None:
    rows = chain(entry(1), FILL, entry(3))
    assert followed(rows, 3, digest_at(rows[-1])) == []
    kept = [(2, digest_at(rows[1])), (3, digest_at(rows[2])[:8].upper())]
    assert followed(rows, 3, digest_at(rows[-1]), kept=kept) == []


def test_a_changed_row_breaks_the_chain_at_its_entry() -> None:
    rows = chain(entry(1), FILL, entry(3))
    for place in range(20):
        row = list(rows[1].row)
        more = {int: 1, str: "x", bytes: b"x"}[type(row[place])]
        row[place] += more
        changed = [rows[0], replace(rows[1], row=row), rows[2]]
        broken = followed(changed, 3, digest_at(rows[-1]))
        named = "entry 3" if place == 0 else "entry 2"
        assert broken, place
        assert broken[0].startswith((f"{named}, entry: ", "entry 2, entry: ")), place


def test_a_missing_row_is_named() -> None:
    rows = chain(entry(1), FILL, entry(3), entry(4))
    digest = digest_at(rows[-1])
    assert followed(rows[:1] + rows[2:], 4, digest) == ["entry 2, entry: its row is missing"]
    assert followed(rows[:1] + rows[3:], 4, digest) == [
        "entry 2 to entry 3, entry: their rows are missing"
    ]
    assert followed(rows[:3], 4, digest) == ["entry 4, entry: its row is missing"]
    assert followed(rows, 3, digest_at(rows[2])) == ["entry 4, entry: it stands after the head, 3"]
    assert followed(rows, 4, "x") == ["entry 4, head: the head's digest is another"]


def test_a_chain_forged_to_its_end_is_seen_only_by_a_head_kept_elsewhere() -> None:
    true = chain(entry(1), entry(2), entry(3))
    forged = chain(entry(1), FILL, entry(3))
    assert followed(forged, 3, digest_at(forged[-1])) == []
    kept = digest_at(true[-1])[:10]
    assert followed(forged, 3, digest_at(forged[-1]), kept=[(3, kept)]) == [
        f"entry 3, entry: its digest is not the one kept elsewhere ({kept})"
    ]


@pytest.mark.parametrize("table", ["lot", "posting", "origin"])
def test_rows_that_are_not_what_was_sealed(table: str) -> None:
    sound = stored(FILL)
    rows: list[Any] = list(getattr(sound, f"{table}s"))
    other = type(rows[0][-1])(99)
    cases = [rows[:-1], [*rows, rows[-1]], [[*rows[0][:-1], other], *rows[1:]], rows[::-1]]
    for case in cases:
        changed = replace(sound, **{f"{table}s": case})
        assert list(audit.check_sealed(changed)) == [
            f"entry 2, {table}: its rows are not what was sealed"
        ]


def test_balance_wholeness_and_order() -> None:
    sound = stored(FILL)
    off = replace(sound, postings=[[1, 3, "difference", -30], [2, 3, "vessel/V", 29]])
    assert list(audit.check_balanced(off)) == ["entry 2, posting: out of balance by -1 g"]
    short = replace(sound, origins=[[1, 3, 1, 29, 0]])
    assert list(audit.check_whole(short)) == ["entry 2, lot: T26-0001-T is made of 29 g, not 30 g"]
    more = replace(sound, origins=[[1, 3, 1, 30, 0], [2, 1, 0, 7, 0], [3, 2, 1, 5, 0]])
    assert list(audit.check_whole(more)) == [
        "entry 2, origin: 7 g are added to lot 1, made before",
        "entry 2, lot: S26-0002-B is made of 5 g, not 0 g",
    ]
    odd = replace(sound, origins=[[1, 3, 4, 30, 0], [2, 3, 3, 0, 1], [3, 3, 4, 0, 1]])
    assert list(audit.check_ordered(odd)) == [
        "entry 2, origin: line 1 is out of order",
        "entry 2, origin: line 2 is out of order",
    ]


def test_packaging_is_made_of_no_grams_and_never_of_less() -> None:
    jars = Lot(2, "A26-0001-Q", "A", 2, 0, 2026)
    assert list(audit.check_whole(stored(entry(2, lots=(jars,))))) == []
    less = stored(entry(2, lots=(replace(jars, made_g=5),)))
    less = replace(less, lots=[[*less.lots[0][:4], -5, *less.lots[0][5:]]])
    assert list(audit.check_whole(less)) == ["entry 2, lot: A26-0001-Q is made of 0 g, not 0 g"]


def test_what_a_lot_holds_is_followed_entry_by_entry() -> None:
    running = Running()
    inside, outside = "vessel/V", "difference"

    def follow(number: int, *rows: tuple[str, int]) -> list[str]:
        postings = [[line, 1, place, grams] for line, (place, grams) in enumerate(rows, 1)]
        return running.follow(Stored((number,), [], postings, []))

    assert follow(1, (outside, -50), (inside, 50)) == []
    assert follow(2, (inside, -80), (outside, 30), (inside, 50)) == [], "below only within"
    assert follow(3, (inside, -20), (outside, 20)) == []
    assert follow(4, (inside, -1), (outside, 1)) == [
        "entry 4, posting: lot 1 has -1 g at vessel/V"
    ]
    assert follow(5, (outside, -99), (inside, 99)) == []


def dry(gone_g: int, *rows: list[int], by_scale: int = 0) -> list[str]:
    postings = (Posting(1, 1, "pallet/G", -gone_g), Posting(2, 1, "evaporated", gone_g))
    names = ("lot", "grams", "before", "after")
    marks = [
        [f"S{row[0]}", "dried", {**dict(zip(names, row, strict=True)), "by_scale": by_scale}]
        for row in rows
    ]
    one = entry(5, facts={"effects": {"marks": marks}}, postings=postings if gone_g else ())
    return list(audit.check_dry(one))


def test_drying_keeps_solids() -> None:
    # 1,000 kg at 20.00 % hold 800 kg of solids, which at 18.00 % are in 975,610 g.
    assert dry(24_390, [1, 1_000_000, 2_000, 1_800]) == []
    assert dry(24_391, [1, 1_000_000, 2_000, 1_800]) == [], "within 1 g"
    assert dry(24_392, [1, 1_000_000, 2_000, 1_800]) == ["entry 5: lot 1 has -1.4 g of solids"]
    assert dry(0, [1, 1_000_000, 2_000, 1_800]) == ["entry 5: lot 1 has +20000.0 g of solids"]
    assert dry(5) == ["entry 5: lot 1 dries without its moistures"]


def test_weighed_water_keeps_solids_as_far_as_its_moisture_is_rounded() -> None:
    # 800 kg of solids in 975,561 g are 17.996 % water: 18.00 % is the nearest, 17.98 % is not.
    assert dry(24_439, [1, 1_000_000, 2_000, 1_800], by_scale=1) == []
    assert dry(24_439, [1, 1_000_000, 2_000, 1_798], by_scale=1) == [
        "entry 5: lot 1 has +155.1 g of solids"
    ]
