"""What an audit has found broken, by invariant."""

from collections.abc import Iterable

from honeyledger.ledger import audit
from honeyledger.services.store import Finding

MOST_NAMED = 50
"""How many broken rows an invariant names before it only counts them."""


class Broken:
    """What is broken, by invariant: the first ones by name, the others counted."""

    def __init__(self) -> None:
        self._named: dict[str, list[str]] = {name: [] for name in audit.INVARIANTS}
        self._more = dict.fromkeys(audit.INVARIANTS, 0)

    def add(self, name: str, lines: Iterable[str]) -> None:
        """Note broken rows of an invariant."""
        for line in lines:
            if len(self._named[name]) < MOST_NAMED:
                self._named[name].append(line)
            else:
                self._more[name] += 1

    def add_all(self, other: "Broken") -> None:
        """Note what another part of the audit has found."""
        for name, lines in other._named.items():
            self.add(name, lines)
            self._more[name] += other._more[name]

    def findings(self) -> list[Finding]:
        """One finding an invariant, in the list's order."""
        found = []
        for name, lines in self._named.items():
            more = [f"and {self._more[name]} more"] if self._more[name] else []
            found.append(Finding(name, not lines, (*lines, *more)))
        return found
