"""Every presenter in a process that has no widgets: imported, made at a desk, asked for its page.

`python -m tests.support.widgetless FOLDER` tells as JSON, for each, what it could not do, or "".
"""

import importlib
import inspect
import json
import sys
from collections.abc import Iterator
from importlib.machinery import ModuleSpec
from itertools import count
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WIDGETS = "PySide6.QtWidgets"
IMPORTED = "imported; it is made of more than is known here"


class _Refuse:
    """Finds no widgets for anybody."""

    def find_spec(self, name: str, _path: object, _target: object = None) -> ModuleSpec | None:
        if name == WIDGETS:
            raise ImportError(f"{WIDGETS} is not to be had here")
        return None


def presenters() -> list[str]:
    """The modules of all presenters."""
    files = sorted((ROOT / "honeyledger" / "desktop").rglob("*presenter.py"))
    return [file.relative_to(ROOT).with_suffix("").as_posix().replace("/", ".") for file in files]


def _classes(name: str) -> Iterator[type]:
    module = importlib.import_module(name)
    for found in vars(module).values():
        own = inspect.isclass(found) and found.__module__ == name
        if own and found.__name__.endswith("Presenter"):
            yield found


def main(folder: Path) -> int:
    """Tell what each presenter could not do."""
    sys.meta_path.insert(0, _Refuse())
    core = importlib.import_module("PySide6.QtCore")
    app = core.QCoreApplication([])
    desk = _desk(folder)
    told = {name: _tried(name, desk) for name in presenters()}
    while not desk.jobs.is_idle():
        app.processEvents(core.QEventLoop.ProcessEventsFlag.WaitForMoreEvents, 20)
    desk.jobs.close()
    desk.house.store.close()
    told["widgets"] = WIDGETS if WIDGETS in sys.modules else ""
    print(json.dumps(told), flush=True)  # noqa: T201
    return 0


def _tried(name: str, desk: object) -> str:
    try:
        made = 0
        for kind in _classes(name):
            wanted = list(inspect.signature(kind).parameters)
            given = {"desk": desk, **_BESIDES}
            if not set(wanted) <= set(given):
                continue
            made += 1
            presenter = kind(*(given[name] for name in wanted))
            # It lives as long as its lanes may still answer it.
            _KEPT.append(presenter)
            getattr(presenter, "ask", lambda: None)()
    except Exception as error:  # noqa: BLE001 - whatever it is, the test says it
        return f"{type(error).__name__}: {error}"
    return "" if made else IMPORTED


# Of what presenters are made beside a desk, by the name of the parameter.
_BESIDES: dict[str, object] = {"zone": "UTC"}
_KEPT: list[object] = []


def _desk(folder: Path) -> object:
    load = importlib.import_module
    store = load("honeyledger.persistence.store").open_store(
        str(folder / "house.honeyledger"), create=True, new_id=lambda: "ledger-1"
    )
    numbers = count(1)
    house = load("honeyledger.services.house").House(
        store, lambda: 1_790_000_000_000, lambda: f"id-{next(numbers)}"
    )
    house.record_all(load("honeyledger.services.setup").new_house("Test House", "UTC"))
    desktop = "honeyledger.desktop"
    return load(f"{desktop}.desk").Desk(
        house,
        load(f"{desktop}.jobs").Jobs(),
        load(f"{desktop}.refresh").Refresh(),
        load("honeyledger.settings").Settings(),
        ROOT / "resources",
        drafts=load(f"{desktop}.drafts").Drafts(folder / "drafts"),
        papers=folder / "papers",
    )


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
