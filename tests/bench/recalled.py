"""A case on a yard of a large house: `python -m tests.bench.recalled FILE`.

Prints the processor time of the first answer, of the whole case and of the exposure of the house,
each the median of some turns. All three are asked beside the window. FILE is copied first.
"""

import shutil
import sys
import tempfile
import time
import uuid
from collections.abc import Callable
from pathlib import Path
from statistics import median

from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.persistence.store import open_store
from honeyledger.services.exposure import exposure
from honeyledger.services.house import House, Said
from honeyledger.services.recalls_page import recalls_page

TURNS = 7


def processor_ms(run: Callable[[], object]) -> float:
    """The median of some turns, after one for warming up."""
    run()
    took = []
    for _ in range(TURNS):
        began = time.process_time()
        run()
        took.append(time.process_time() - began)
    return median(took) * 1000


def timed(file: Path) -> list[tuple[str, float]]:
    """What each answer takes, on a copy with a case on the source that most is behind."""
    store = open_store(str(file))
    house = House(store, lambda: time.time_ns() // 1_000_000, lambda: uuid.uuid4().hex)
    most = house.ask(exposure).sources[0].code
    house.record(OpenRecall("what most is behind", yard=most), Said(operator="O26-0001-X"))
    now_ms = house.clock()
    lots = house.ask(lambda view: recalls_page(view, now_ms, first=True)).scope
    assert lots is not None
    rows = [
        (
            f"first answer of a case of {lots.lots:,} lots",
            processor_ms(lambda: house.ask(lambda v: recalls_page(v, now_ms, first=True))),
        ),
        ("the whole case", processor_ms(lambda: house.ask(lambda v: recalls_page(v, now_ms)))),
        ("exposure of the house", processor_ms(lambda: house.ask(exposure))),
    ]
    store.close()
    return rows


def main() -> None:
    """Both answers and the exposure, as Markdown."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "house.honeyledger"
        shutil.copy(sys.argv[1], file)
        print("| what | processor time |\n| --- | --- |")  # noqa: T201
        for what, took in timed(file):
            print(f"| {what} | {took:.0f} ms |")  # noqa: T201


if __name__ == "__main__":
    main()
