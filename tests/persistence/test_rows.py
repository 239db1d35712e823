import pytest

from honeyledger.domain.refusals import Damage
from honeyledger.ledger.canonical import seal, text_of
from honeyledger.persistence.rows import (
    code_parts,
    entry_of,
    entry_row,
    lot_rows,
    origin_rows,
    posting_rows,
    previous_text,
    value_of,
)
from honeyledger.persistence.store import open_store
from tests.support.entries import Hand


def _rows() -> tuple[object, ...]:
    store = open_store(":memory:", create=True)
    posts = [
        ("S26-0001-A", "yard/Y", -10),
        ("S26-0001-A", "difference", 10),
        ("D26-0001-D", "difference", -10),
        ("D26-0001-D", "drum/E", 10),
    ]
    lots = [("S26-0001-A", 10), ("D26-0001-D", 10)]
    origins = [("D26-0001-D", "S26-0001-A", 10)]
    entry = Hand(store).build(1, 1, "fill", lots, posts, origins, unsure_ms=7, run="R", reverses=0)
    store.close()
    row = entry_row(entry, text_of(entry.facts), seal(entry, "ledger-1"))
    return entry, row, lot_rows(entry), posting_rows(entry), origin_rows(entry)


def test_there_and_back() -> None:
    entry, row, lots, postings, origins = _rows()
    assert entry_of(row, lots, postings, origins) == entry  # type: ignore[arg-type]


def test_digests_are_stored_as_bytes_and_told_in_hexadecimal() -> None:
    entry, row, *_ = _rows()
    sealed = seal(entry, "ledger-1")  # type: ignore[arg-type]
    assert row[14:] == (  # type: ignore[index]
        b"ledger-1",
        *map(bytes.fromhex, (sealed.facts, sealed.lots, sealed.postings, sealed.origins)),
        bytes.fromhex(sealed.digest),
    )
    assert previous_text(1, row[14]) == "ledger-1", "the ledger's id"  # type: ignore[index]
    assert previous_text(2, row[15]) == sealed.facts  # type: ignore[index]
    assert previous_text(1, b"\xff") == "\ufffd"


def test_rows_that_were_never_sealed_are_damage() -> None:
    _, row, lots, postings, origins = _rows()
    with pytest.raises(Damage, match=r"entry 1: entry 1 \(fill\) is out of balance"):
        entry_of(row, lots, postings[:-1], origins)  # type: ignore[arg-type,index]
    with pytest.raises(Damage, match="entry 1: "):
        entry_of((*row[:13], "{", *row[14:]), lots, postings, origins)  # type: ignore[arg-type,index]


@pytest.mark.parametrize(
    ("code", "parts"),
    [
        ("D26-0611-Y", ("D", 26, 611)),
        ("KB-D26-0611-3", ("D", 26, 611)),
        ("J26-12345678-0", ("J", 26, 12_345_678)),
        ("J26-0147-00382-F", ("", 0, 0)),
        ("sticker 7", ("", 0, 0)),
        ("", ("", 0, 0)),
    ],
)
def test_the_parts_of_a_code(code: str, parts: tuple[str, int, int]) -> None:
    assert code_parts(code) == parts


def test_a_text_is_one_value() -> None:
    assert value_of('{"a":[1,"b"]}') == {"a": [1, "b"]}
    for text in ("", "{} {}", "{}x"):
        with pytest.raises(ValueError, match=r"Expecting value|goes on"):
            value_of(text)
