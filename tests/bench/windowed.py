"""One window in a process of its own, for the bench: what it does, and a house.

`program` and `translated` start it, in English and in the second language; `bare` starts a window
with nothing in it; `round` opens every place.

What it found is told as JSON in one line, when it has ended.
"""

import importlib
import json
import sqlite3
import sys
import threading
from collections import Counter
from collections.abc import Callable
from dataclasses import asdict
from functools import partial
from time import thread_time
from typing import Any

from honeyledger import garbage

# The program's own start, with all it does before a house is opened.
from honeyledger.__main__ import bootstrap
from honeyledger.settings import Settings

COLUMNS, ROWS = 8, 200
PAUSE_MS = 400
BRIEF_MS = 20
"""Where nothing is measured: it only has to run."""
_BEAT_MS = 5
# Often enough to see what takes long, seldom enough to take nothing from it.
_LOOK_S, _CALLS, _LONGEST = 0.01, 4, 10
# What the largest house ties together takes most of a minute of a core by itself.
_MOST_WAIT_S = 300.0


def program(where: str, language: str = "en") -> dict[str, Any]:
    """Until the first station has its answers and a field the keyboard."""
    house = bootstrap.open_house(where, clock=_end_of(where))
    app, window = _shown(house, language)
    while not (_is_answered(window) and app.focusWidget() is not None):
        app.processEvents()
    app.processEvents()
    told = {"field": app.focusWidget().accessibleName()}
    window.close()
    house.store.close()
    return told


def translated(where: str) -> dict[str, Any]:
    """The same in another language."""
    return program(where, "es")


def bare(where: str) -> dict[str, Any]:
    """A window of one table over the same file, with the same libraries and nothing else."""
    importlib.import_module("sqlalchemy")
    core = importlib.import_module("PySide6.QtGui")
    widgets = importlib.import_module("PySide6.QtWidgets")
    app = widgets.QApplication([])
    with sqlite3.connect(where) as file:
        rows = file.execute("SELECT code FROM lot LIMIT ?", (ROWS,)).fetchall()
    model = core.QStandardItemModel(ROWS, COLUMNS)
    for row, (code,) in enumerate(rows):
        for column in range(COLUMNS):
            model.setItem(row, column, core.QStandardItem(str(code)))
    window, table = widgets.QMainWindow(), widgets.QTableView()
    table.setModel(model)
    window.setCentralWidget(table)
    window.resize(1280, 800)
    window.show()
    app.processEvents()
    return {"rows": len(rows)}


def round_of_all(where: str, pause_ms: str = str(PAUSE_MS), times: str = "2") -> dict[str, Any]:
    """Every place and tool opened twice, a card, a trace each way, the other theme."""
    still = partial(settle, pause_ms=int(pause_ms))
    house = bootstrap.open_house(where, clock=_end_of(where))
    with house.store.reading() as view:
        drums = view.on_hand(["drum"])
        drum = drums[len(drums) // 2].lot.code
        yard = view.marked("record", "yard/")[0].subject.partition("/")[2]
    app, window = _shown(house)
    watchdog = importlib.import_module("honeyledger.desktop.watchdog").Watchdog()
    blocks: list[dict[str, Any]] = []
    doing = ""
    watchdog.blocked.connect(lambda block: blocks.append({"doing": doing, **asdict(block)}))
    steps: list[tuple[str, Callable[[], object]]] = [("start", lambda: None)]
    for again in ("", " again")[: int(times)]:
        for key in window.stations:
            steps.append((f"{key}{again}", lambda key=key: window.open_station(key)))
    steps += [
        ("card", lambda: window.open_card(drum)),
        ("trace back", lambda: window.trace(drum)),
        ("trace forward", lambda: window.trace(yard)),
        ("theme", window.change_theme),
    ]
    importlib.import_module("honeyledger.desktop.app").load_ahead(window.desk)
    still(app, window)
    watchdog.start()
    worked = _Worked()
    for doing, step in steps:
        worked.doing = doing
        step()
        still(app, window)
    worked.stop()
    watchdog.stop()
    window.close()
    house.store.close()
    worked_ms, longest = worked.most_ms, worked.longest
    return {"steps": len(steps), "blocks": blocks, "worked_ms": worked_ms, "longest": longest}


class _Worked:
    """The processor time of the window's thread between two beats of its loop, at most.

    It is what a block lasts on a machine that has nothing else to do. A second thread takes down
    where the thread stands meanwhile, since a beat comes only afterwards.
    """

    def __init__(self) -> None:
        core = importlib.import_module("PySide6.QtCore")
        self.most_ms, self._last = 0.0, thread_time()
        self.doing = ""
        self.longest: list[dict[str, Any]] = []
        self._stood: list[str] = []
        # The watchdog's: it holds no frame while it writes, a painter in it would live on.
        self._stack_of = importlib.import_module("honeyledger.desktop.watchdog")._stack_of
        self._thread_id, self._stopped = threading.get_ident(), threading.Event()
        self._looking = threading.Thread(target=self._look_on, daemon=True)
        self._looking.start()
        self._timer = core.QTimer()
        self._timer.setTimerType(core.Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._beat)
        self._timer.start(_BEAT_MS)

    def stop(self) -> None:
        """Measure no more."""
        self._timer.stop()
        self._stopped.set()
        self._looking.join()

    def _beat(self) -> None:
        before, self._last = self._last, thread_time()
        worked_ms = (self._last - before) * 1000
        self.most_ms = max(self.most_ms, worked_ms)
        stood, self._stood = self._stood, []
        told = {
            "doing": self.doing,
            "ms": round(worked_ms),
            "where": Counter(stood).most_common(4),
        }
        self.longest = sorted([*self.longest, told], key=lambda one: -one["ms"])[:_LONGEST]

    def _look_on(self) -> None:
        while not self._stopped.wait(_LOOK_S):
            stands = self._stack_of(self._thread_id)[: -_CALLS - 1 : -1]
            self._stood.append(" < ".join(f"{call}:{line}" for _, line, call, _ in stands))


def _end_of(where: str) -> Callable[[], int]:
    """A clock that stands where the seasons end, as it would for the people who work there.

    That is not at the last entry in a house of seasons to come that was upgraded since.
    """
    with sqlite3.connect(where) as file:
        (at_ms,) = file.execute("SELECT max(happened_ms) FROM entry").fetchone()
    return lambda: at_ms


def _shown(house: Any, language: str = "en") -> tuple[Any, Any]:
    garbage.is_loading()  # as the program does before it loads its window
    window_app = importlib.import_module("honeyledger.desktop.app")
    settings = Settings(tones=False, language=language)
    app = window_app.application(settings)
    window = window_app.build(house, settings, bootstrap.resource())
    window.show()
    return app, window


def _is_answered(window: Any) -> bool:
    return window.stations["dock"].presenter.page is not None


def settle(app: Any, window: Any, pause_ms: int = PAUSE_MS) -> None:
    """Until nothing is asked any more, and pauses are over."""
    core = importlib.import_module("PySide6.QtCore")
    whole, quiet = core.QElapsedTimer(), core.QElapsedTimer()
    whole.start()
    quiet.start()
    while quiet.elapsed() < pause_ms:
        app.processEvents(core.QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 20)
        if not window.desk.jobs.is_idle():
            quiet.restart()
        if whole.elapsed() > _MOST_WAIT_S * 1000:
            raise TimeoutError("The window did not come to rest.")


RUNS: dict[str, Callable[..., dict[str, Any]]] = {
    "program": program,
    "translated": translated,
    "bare": bare,
    "round": round_of_all,
}

if __name__ == "__main__":
    print(json.dumps(RUNS[sys.argv[1]](*sys.argv[2:])), flush=True)  # noqa: T201
