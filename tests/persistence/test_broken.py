"""An invariant names its first broken rows and counts the others, from however many parts."""

from honeyledger.ledger import audit
from honeyledger.persistence.broken import MOST_NAMED, Broken


def _of(name: str, found: Broken) -> tuple[str, ...]:
    return next(one.broken for one in found.findings() if one.name == name)


def test_many_broken_rows_are_counted() -> None:
    found = Broken()
    found.add(audit.WHOLE, (f"entry {number}" for number in range(MOST_NAMED + 5)))
    assert len(_of(audit.WHOLE, found)) == MOST_NAMED + 1
    assert _of(audit.WHOLE, found)[-1] == "and 5 more"


def test_what_another_part_found_comes_behind() -> None:
    here, there = Broken(), Broken()
    here.add(audit.CHAINED, ["a"])
    there.add(audit.CHAINED, (f"entry {number}" for number in range(MOST_NAMED + 5)))
    there.add(audit.WHOLE, ["b"])
    here.add_all(there)
    assert _of(audit.CHAINED, here)[:2] == ("a", "entry 0")
    assert _of(audit.CHAINED, here)[-1] == "and 6 more"
    assert _of(audit.WHOLE, here) == ("b",)
    assert [one.name for one in here.findings() if one.holds] == [
        name for name in audit.INVARIANTS if name not in (audit.CHAINED, audit.WHOLE)
    ]
