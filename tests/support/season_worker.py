"""A season's crew as a process of its own, to be killed: it says each entry once it is written.

`python -m tests.support.season_worker HOUSE SEED COLONIES` works through the season from its
beginning. What was written before it was killed is answered by the ledger and not said again.
"""

import sys
from typing import Any

from honeyledger.persistence.store import open_store
from honeyledger.services.house import House, Recorded
from tests.bench.season import Clock, Scale, Season, season_house


class Announced(House):
    """Says entry and digest on standard output, a line each, after the commit."""

    def record(self, facts: Any, *said: Any) -> Recorded:
        """Record, then say so."""
        done = super().record(facts, *said)
        for entry, seal in zip(done.entries, done.seals, strict=not done.again):
            sys.stdout.write(f"{entry.id} {seal.digest}\n")
            sys.stdout.flush()
        return done


def scale_of(seed: int, colonies: int) -> Scale:
    """The season both the crew and the test mean."""
    return Scale(colonies=colonies, seasons=1, seed=seed, mishaps=40)


def main(place: str, seed: str, colonies: str) -> None:
    """Work until the season ends, or the process does."""
    clock = Clock()
    plain = season_house(open_store(place), clock)
    house = Announced(plain.store, plain.clock, plain.new_id)
    Season(house, clock, scale_of(int(seed), int(colonies))).work()
    house.store.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
