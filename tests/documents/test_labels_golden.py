"""Papers are as they were last looked at: words and places everywhere, bytes on one platform.

Every kind of label stands here on every shipped stock, every paper of the office once.
"""

import pytest

from honeyledger.documents.stock import LEAST_MM
from honeyledger.services import printed
from honeyledger.services.paper_kinds import KINDS
from tests.support import golden
from tests.support.golden import RENEW


def test_what_is_kept_is_what_is_drawn() -> None:
    files = {file.name for file in golden.FOLDER.glob("*.txt")}
    assert files == {golden.BYTES.name, *(golden.file_of(kind).name for kind in golden.papers())}
    where, digests = golden.kept_digests()
    assert list(digests) == list(golden.digests()), RENEW
    stocks = {f"{kind} on {one.name}" for kind in golden.LABELS for one in golden.stocks_of(kind)}
    assert where
    assert stocks <= set(digests), "every kind on every stock that carries it"


def test_no_paper_is_left_out() -> None:
    """Each kind of label, and each word under which a print is on record."""
    assert set(golden.LABELS) == set(LEAST_MM)
    recorded = {word for name, word in vars(printed).items() if name.isupper()}
    painted = {file.stem for file in golden.FOLDER.glob("painted/*.txt")}
    assert recorded | set(KINDS) <= {*golden.KINDS, *painted}


@pytest.mark.parametrize("kind", golden.KINDS)
def test_words_and_places_are_as_they_were(kind: str) -> None:
    assert golden.first_difference(kind, golden.kept(kind), golden.sheet(kind)) == ""


def test_the_same_paper_is_the_same_bytes_twice() -> None:
    for kind, where, pdf in golden.drawn():
        assert pdf == golden.papers()[kind][where], (kind, where)


@pytest.mark.skipif(
    golden.platform() != golden.kept_digests()[0],
    reason=f"bytes are those of {golden.kept_digests()[0]}, and this is {golden.platform()}",
)
def test_bytes_are_as_they_were_where_the_same_versions_write_them() -> None:
    _where, digests = golden.kept_digests()
    now = golden.digests()
    changed = [name for name, digest in digests.items() if now.get(name) != digest]
    assert changed == [], f"other bytes than before: {RENEW}"


def test_the_first_difference_is_told_by_name_place_and_what_to_do() -> None:
    """A line may be 0.1 mm off, which is how far readers of PDFs differ; no more, and no word."""
    kept = ["on roll-100x150", "page 1: 100.0 × 150.0 mm", "  5.0   6.1  40.0   9.9  Clover"]
    said = [line.replace("6.1", "6.2") for line in kept]
    assert golden.first_difference("drum label", kept, said) == ""
    for changed in ("  5.0   6.3  40.0   9.9  Clover", "  5.0   6.1  40.0   9.9  Cloves"):
        assert golden.first_difference("drum label", kept, [*kept[:2], changed]) == (
            "drum label, on roll-100x150: was '  5.0   6.1  40.0   9.9  Clover' (drum-label.txt, "
            f"line 3), is '{changed}': {RENEW}"
        )
    shorter = golden.first_difference("drum label", kept, kept[:2])
    assert "is 'nothing'" in shorter
    assert "was 'nothing'" in golden.first_difference("drum label", kept[:1], kept[:2])
