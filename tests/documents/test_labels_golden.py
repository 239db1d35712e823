"""Papers are as they were last looked at: words and places everywhere, bytes on one platform."""

import hashlib

import pytest

from tests.support.golden import drawn, kept, platform, seen

RENEW = "look at it, then renew with: python -m tests.support.golden"
PAPERS, AGAIN = dict(drawn()), dict(drawn())


def test_every_paper_is_kept() -> None:
    assert set(kept()) == {"platform", *PAPERS}, RENEW


@pytest.mark.parametrize("name", PAPERS)
def test_words_and_places_are_as_they_were(name: str) -> None:
    """To a tenth of a millimetre, since readers of PDFs measure glyphs each in their own way."""
    before, now = kept()[name]["seen"], seen(PAPERS[name])
    assert [row[:2] for row in now] == [row[:2] for row in before], RENEW
    for row, was in zip(now, before, strict=True):
        assert row[2:] == pytest.approx(was[2:], abs=0.1), (row, RENEW)


@pytest.mark.parametrize("name", PAPERS)
def test_the_same_paper_is_the_same_bytes(name: str) -> None:
    """Where the same versions write them; everywhere the same twice."""
    again = AGAIN[name]
    assert again == PAPERS[name]
    if platform() == kept()["platform"]:
        assert hashlib.sha256(again).hexdigest() == kept()[name]["bytes"], RENEW
