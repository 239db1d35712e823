"""The way of a new house to its first pallet: which kind comes after which."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field

from honeyledger.desktop.stations.setup.asks import PATH
from honeyledger.services.setup_page import SetupPage

# Of these a new house needs none; each is shown once.
_SHOWN_ONCE = ("operator", "box")


@dataclass(slots=True)
class Way:
    """How far a new house has come: whether it is on the way, and what was seen to or skipped."""

    is_on: bool = False
    seen: set[str] = field(default_factory=set)

    def begin(self, is_on: bool, seen: Iterable[object]) -> None:
        """Go on where one was."""
        self.is_on = is_on
        self.seen = {str(key) for key in seen} & set(PATH)


def next_on_path(after: str, page: SetupPage, seen: Collection[str]) -> str:
    """The kind that a new house still lacks, looked for after this one first; "" for none.

    What was skipped comes again only where nothing else is lacking.
    """
    at = PATH.index(after) + 1 if after in PATH else 0
    lacking = [key for key in (*PATH[at:], *PATH[:at]) if key != after and _lacks(key, page, seen)]
    fresh = [key for key in lacking if key not in seen]
    return (fresh or lacking or [""])[0]


def _lacks(key: str, page: SetupPage, seen: Collection[str]) -> bool:
    vessels = page.registers.get("vessel", ())
    match key:
        case "house":
            return not page.house
        case "line":
            return not any(row.record.get("sort") == "line" for row in vessels)
        case "tank":
            return not any(row.record.get("sort") != "line" for row in vessels)
        case "box":
            return key not in seen
        case _:
            return not page.registers.get(key) and not (key in _SHOWN_ONCE and key in seen)


def step_of(key: str) -> tuple[int, int]:
    """Which step of the way a kind is, and how many there are; 0 for one that is none."""
    return (PATH.index(key) + 1 if key in PATH else 0), len(PATH)
