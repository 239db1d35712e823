"""A case on a yard of a large house: `python -m tests.bench.recalled [FILE]`.

Prints the processor time of the first answer, of the whole case and of the exposure of the house,
each the median of some turns. All three are asked beside the window. FILE is copied first.

And what the machine does on the sample season from a jar's code to the printed report, with the
letters: the trace, the case, its page in two answers and both papers. 5 s are aimed at.
"""

import shutil
import sys
import tempfile
import time
import uuid
from collections.abc import Callable
from pathlib import Path
from statistics import median

from honeyledger.assets import resource
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.signing import OPERATOR
from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.persistence.store import open_store
from honeyledger.services.dock import choices
from honeyledger.services.exposure import exposure
from honeyledger.services.house import House, Said
from honeyledger.services.recalls_page import recalls_page
from honeyledger.services.trace_page import trace_page
from tests.support.sample import code, sample_house

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


def from_jar_to_paper(folder: Path) -> tuple[str, float]:
    """Once, as on the day it matters: nothing was asked before."""
    house = sample_house(folder)
    lot = parse_code(code("bottling 3"))
    assert isinstance(lot, Code)
    jar, now_ms = str(make_jar_code(lot, 7)), house.clock()
    people = house.ask(lambda view: choices(view, OPERATOR))
    began = time.process_time()
    house.ask(lambda view: trace_page(view, jar))
    opened = OpenRecall("splinters of glass", (jar,))
    case = house.record(opened, Said(operator=people[0].code)).given[0]
    house.ask(lambda view: recalls_page(view, now_ms, case, first=True))
    found = house.ask(lambda view: recalls_page(view, now_ms, case)).case
    assert found is not None
    who = [one for one in found.consignees if one.key]
    faces = Typefaces(resource("fonts"))
    report = recall_report(found, faces, paper="a4", unit="kg")
    letters = recall_letters(found, who, faces, paper="a4", unit="kg")
    took_ms = (time.process_time() - began) * 1000
    assert who
    assert all(paper.startswith(b"%PDF") for paper in (report, letters))
    house.store.close()
    return f"a jar's code to the report and {len(who)} letters, sample season, once", took_ms


def main() -> None:
    """Both answers and the exposure, as Markdown."""
    with tempfile.TemporaryDirectory() as folder:
        print("| what | processor time |\n| --- | --- |")  # noqa: T201
        rows = [from_jar_to_paper(Path(folder))]
        if sys.argv[1:]:
            file = Path(folder) / "house.honeyledger"
            shutil.copy(sys.argv[1], file)
            rows += timed(file)
        for what, took in rows:
            print(f"| {what} | {took:.0f} ms |")  # noqa: T201


if __name__ == "__main__":
    main()
