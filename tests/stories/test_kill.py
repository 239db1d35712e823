"""kill -9 at any moment: every entry that was acknowledged is there, and none is half there.

A crew works through a season in a process of its own and says each entry after its commit. The
process is killed again and again; each time the ledger is opened anew, every acknowledged entry
is looked for with its digest, and the audit has to pass. In the end the season is worked through
to its close, and its last digest is that of a season that was never disturbed.
"""

import os
import random
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from honeyledger.persistence.store import open_store
from tests.bench.generator import LEDGER_ID, generate
from tests.support.engines import SITE
from tests.support.season_worker import scale_of

ROOT = Path(__file__).resolve().parents[2]
SEED = 11
LONGEST_MS = 4.0  # an entry takes one to ten milliseconds, so a kill falls anywhere within one


class Crew:
    """The process, and what it has acknowledged."""

    def __init__(self, place: str, colonies: int) -> None:
        command = [sys.executable, "-m", "tests.support.season_worker", place, str(SEED)]
        self._process = subprocess.Popen(
            [*command, str(colonies)],
            cwd=ROOT,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        self._read = b""

    def works_until(self, acknowledged: int, then_ms: float) -> bool:
        """Whether it is still at work so many entries and milliseconds later."""
        while self._read.count(b"\n") < acknowledged:
            if not self._takes_in(None):
                return False
        until = time.perf_counter() + then_ms / 1000
        while (left := until - time.perf_counter()) > 0:
            if not self._takes_in(left):
                return False
        return True

    def _takes_in(self, within: float | None) -> bool:
        """Read what it says; False at its end."""
        assert self._process.stdout is not None
        ready, _, _ = select.select([self._process.stdout], [], [], within)
        if not ready:
            return True
        said = os.read(self._process.stdout.fileno(), 65_536)
        self._read += said
        return bool(said)

    def is_killed(self) -> dict[int, str]:
        """Kill it with the signal that nothing can catch; what it had acknowledged."""
        self._process.send_signal(signal.SIGKILL)
        assert self._ends() == -signal.SIGKILL
        return self._acknowledged()

    def finishes(self) -> dict[int, str]:
        """Let it work to the end of the season."""
        code = self._ends()
        assert code == 0, self._complaint
        return self._acknowledged()

    def _ends(self) -> int:
        said, complained = self._process.communicate(timeout=600)
        self._read += said
        self._complaint = complained.decode()
        return self._process.returncode

    def _acknowledged(self) -> dict[int, str]:
        """Whole lines only: a line cut short was said by nobody."""
        lines = self._read.decode().split("\n")[:-1]
        return {int(line.split()[0]): line.split()[1] for line in lines}


@contextmanager
def _stored(place: str) -> Iterator[dict[int, str]]:
    """The ledger opened as the program opens it: digest by entry, after its audit."""
    store = open_store(place)
    broken = [finding for finding in store.audit() if not finding.holds]
    assert not broken
    with store.reading() as view:
        last = view.head().entry
        digests = {head.id: head.digest for head in view.entry_heads(range(1, last + 1))}
    store.close()
    yield digests


def _killed_again_and_again(place: str, colonies: int, rounds: int, undisturbed: Path) -> None:
    chance = random.Random(f"kill/{SEED}/{rounds}")
    with _stored(str(undisturbed)) as expected:
        entries = len(expected)
    acknowledged: dict[int, str] = {}
    for kill in range(1, rounds + 1):
        crew = Crew(place, colonies)
        steps = chance.randint(1, 3 * entries // (2 * rounds))
        at_work = crew.works_until(steps, chance.uniform(0, LONGEST_MS))
        assert at_work, f"the season ended before kill {kill}"
        acknowledged |= crew.is_killed()
        with _stored(place) as digests:
            missing = acknowledged.items() - digests.items()
            assert not missing, f"kill {kill}: acknowledged, and not there"
            # The last entry may have been committed and not yet said.
            assert len(digests) - len(acknowledged) in (0, 1)
            assert digests.items() <= expected.items()
            acknowledged = digests
    Crew(place, colonies).finishes()
    with _stored(place) as digests:
        assert digests == expected


@pytest.mark.long_on_server
@pytest.mark.parametrize(
    ("rounds", "colonies"), [(4, 200), pytest.param(50, 400, marks=pytest.mark.full)]
)
def test_a_crew_killed_again_and_again(rounds: int, colonies: int, tmp_path: Path) -> None:
    """A server lives on and takes back what the killed client had begun."""
    undisturbed = tmp_path / "undisturbed"
    generate(undisturbed, scale_of(SEED, colonies))
    place = SITE.address(tmp_path / "house")
    SITE.build(place, LEDGER_ID).close()
    _killed_again_and_again(place, colonies, rounds, undisturbed)
