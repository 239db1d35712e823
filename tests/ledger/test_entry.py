"""An entry that does not balance, or whose lots are not whole, cannot be made."""

import pytest

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.entry import Act, Entry, Lot, Origin, Posting

ACT = Act(Moment(0, 0, "UTC"), "", "", "command-1")


def _entry(
    lots: tuple[Lot, ...] = (),
    postings: tuple[Posting, ...] = (),
    origins: tuple[Origin, ...] = (),
) -> Entry:
    return Entry(7, "fill", ACT, 0, 0, {}, lots, postings, origins)


def _lot(lot_id: int, kind: str, made_g: int = 100) -> Lot:
    return Lot(lot_id, f"{kind}26-0001-X", kind, 7, made_g, 2026)


def _broken(*parts: tuple[object, ...]) -> str:
    with pytest.raises(BrokenRule) as broken:
        _entry(*parts)  # type: ignore[arg-type]
    return str(broken.value)


def test_postings_sum_to_nothing() -> None:
    postings = (Posting(1, 3, "yard/Y", -100), Posting(2, 3, "pallet/G", 100))
    assert _entry(postings=postings).postings == postings
    assert _broken((), postings[:1]) == "entry 7 (fill) is out of balance by -100 g"


def test_a_made_lot_is_whole() -> None:
    drum = _lot(9, "D")
    origins = (Origin(1, 9, 3, 60), Origin(2, 9, 4, 40), Origin(3, 9, 5, 0))
    assert _entry((drum,), (), origins).lots == (drum,)
    assert _broken((drum,), (), origins[:1]) == "lot D26-0001-X is made of 60 g, not 100 g"


def test_a_lot_is_made_of_something() -> None:
    assert _broken((_lot(9, "D", 0),)) == "lot D26-0001-X would be made of 0 g"
    assert _broken((_lot(9, "A", -1),)) == "lot A26-0001-X would be made of -1 g"
    packaging = _lot(9, "A", 0)  # it is counted
    assert _entry((packaging,)).lots == (packaging,)
    assert _broken((_lot(9, "S", -5),)) == "lot S26-0001-X would be made of -5 g"


@pytest.mark.parametrize("kind", ["S", "P", "A"])
def test_a_source_lot_has_origins_in_reach_only(kind: str) -> None:
    source = _lot(9, kind)
    assert _entry((source,), (), (Origin(1, 9, 3, 0, True),)).lots == (source,)
    assert _broken((source,), (), (Origin(1, 9, 3, 5),)) == (
        f"source lot {kind}26-0001-X cannot have origins with grams"
    )


def test_origins_with_grams_run_from_older_to_newer() -> None:
    assert _broken((), (), (Origin(1, 9, 9, 0, True),)) == "lot 9 cannot be its own origin"
    assert _broken((), (), (Origin(4, 3, 9, 5),)) == "entry 7: origin line 4 is out of order"
    assert _broken((), (), (Origin(4, 9, 3, -5),)) == "entry 7: origin line 4 is out of order"
    late = Origin(4, 3, 9, 0, True)  # reach may run back to an older lot
    assert _entry(origins=(late,)).origins == (late,)
