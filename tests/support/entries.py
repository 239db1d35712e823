"""Entries made by hand, without verbs: for tests of what lies under them."""

from collections.abc import Sequence
from typing import Any

from honeyledger.domain.moments import Moment
from honeyledger.ledger.entry import Act, Entry, Lot, Origin, Posting
from honeyledger.services.store import Store

START_MS = 1_784_882_400_000  # 24 July 2026, 08:40 UTC
MINUTE_MS = 60_000

Made = tuple[str, int]
Posted = tuple[str, str, int]
Of = tuple[str, str, int]


class Hand:
    """Writes entries to a store, naming lots by their codes."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.ids: dict[str, int] = {}

    def lot(self, code: str) -> int:
        """The id of a lot written here."""
        return self.ids[code]

    def build(
        self,
        next_entry: int,
        next_lot: int,
        kind: str,
        lots: Sequence[Made] = (),
        posts: Sequence[Posted] = (),
        origins: Sequence[Of] = (),
        **more: Any,
    ) -> Entry:
        """An entry that follows; `more` is header facts, or effects with codes for lots."""
        made = []
        for place, (code, made_g) in enumerate(lots):
            self.ids[code] = next_lot + place
            made.append(Lot(next_lot + place, code, code[0], next_entry, made_g, 2026, {"n": 1}))
        said = ("command", "part", "run", "at_min", "unsure_ms", "reverses", "operator", "station")
        header = {name: more.pop(name) for name in said if name in more}
        at_ms = START_MS + header.get("at_min", next_entry) * MINUTE_MS
        act = Act(
            happened=Moment(at_ms, 120, "Europe/Berlin"),
            operator=header.get("operator", "O26-0001-X"),
            station=header.get("station", "dock"),
            command=header.get("command", f"command-{next_entry}"),
            run=header.get("run", ""),
            unsure_ms=header.get("unsure_ms", 0),
        )
        effects = {name: [self._row(row) for row in rows] for name, rows in more.items()}
        if made:
            effects["codes"] = [[lot.code] for lot in made] + effects.get("codes", [])
        return Entry(
            id=next_entry,
            kind=kind,
            act=act,
            recorded_ms=at_ms + 1_000,
            part=header.get("part", 1),
            facts={"said": {"kind": kind, "word": "Größe"}, "effects": effects},
            lots=tuple(made),
            postings=tuple(
                Posting(line, self.ids[code], place, grams)
                for line, (code, place, grams) in enumerate(posts, 1)
            ),
            origins=tuple(
                Origin(line, self.ids[child], self.ids[parent], grams, not grams)
                for line, (child, parent, grams) in enumerate(origins, 1)
            ),
            reverses=header.get("reverses", 0),
        )

    def _row(self, row: Sequence[Any]) -> list[Any]:
        """A row of effects; a part "lot:CODE" is that lot's id."""
        return [
            self.ids[part[4:]] if isinstance(part, str) and part.startswith("lot:") else part
            for part in row
        ]

    def write(self, kind: str, *parts: Any, **more: Any) -> Entry:
        """Write the next entry and return it."""
        with self.store.writing() as unit:
            entry = self.build(unit.next_entry, unit.next_lot, kind, *parts, **more)
            unit.append(entry)
        return entry


def write_season(store: Store) -> Hand:
    """Ten entries with every kind of row: pulls, a fill, drums, late and void origins, more."""
    hand = Hand(store)
    _write_fill(hand)
    hand.write(
        "late load",
        [],
        [
            ("S26-0002-B", "pallet/G26-0001-P", -40_000),
            ("S26-0002-B", "vessel/E26-0001-V", 40_000),
        ],
        [("T26-0001-T", "S26-0002-B", 0)],
        left=[["pallet/G26-0001-P", "lot:S26-0002-B"]],
        came=[["vessel/E26-0001-V", "lot:S26-0002-B"]],
        arrived=[["vessel/E26-0001-V", "lot:S26-0002-B"]],
        touched=[["vessel/E26-0001-V"]],
        at_min=3,
        unsure_ms=5 * MINUTE_MS,
    )
    hand.write("measure", marks=[["D26-0001-D", "moisture", 1780]])
    wrong = hand.write("measure", marks=[["D26-0001-D", "moisture", 9780]], origins=[])
    hand.write("reverse", reverses=wrong.id)
    hand.write("narrow", voids=[[5, 1]])
    hand.write(
        "dispatch",
        [],
        [
            ("D26-0001-D", "drum/E26-0002-W", -25_000),
            ("D26-0001-D", "customer/C1", 25_000),
        ],
        left=[["drum/E26-0002-W", "lot:D26-0001-D"]],
        touched=[["drum/E26-0002-W"]],
    )
    return hand


def _write_fill(hand: Hand) -> None:
    """Two pulls on a pallet, one of them loaded, and a drum filled from it."""
    hand.write("register", marks=[["yard/Y26-0001-K", "record", {"name": "North"}]])
    hand.write(
        "receive",
        [("S26-0001-A", 60_000), ("S26-0002-B", 40_000)],
        [
            ("S26-0001-A", "yard/Y26-0001-K", -60_000),
            ("S26-0001-A", "pallet/G26-0001-P", 60_000),
            ("S26-0002-B", "yard/Y26-0002-L", -40_000),
            ("S26-0002-B", "pallet/G26-0001-P", 40_000),
        ],
        came=[["pallet/G26-0001-P", "lot:S26-0001-A"], ["pallet/G26-0001-P", "lot:S26-0002-B"]],
        pieces=[["pallet/G26-0001-P", "lot:S26-0001-A", 4]],
        touched=[["pallet/G26-0001-P"]],
    )
    hand.write(
        "load",
        [],
        [
            ("S26-0001-A", "pallet/G26-0001-P", -60_000),
            ("S26-0001-A", "vessel/E26-0001-V", 60_000),
        ],
        left=[["pallet/G26-0001-P", "lot:S26-0001-A"]],
        came=[["vessel/E26-0001-V", "lot:S26-0001-A"]],
        arrived=[["vessel/E26-0001-V", "lot:S26-0001-A"]],
        pieces=[["pallet/G26-0001-P", "lot:S26-0001-A", -4]],
        touched=[["pallet/G26-0001-P"], ["vessel/E26-0001-V"]],
        run="R26-0001-R",
    )
    hand.write(
        "fill",
        [("T26-0001-T", 60_000), ("D26-0001-D", 25_000)],
        [
            ("S26-0001-A", "vessel/E26-0001-V", -60_000),
            ("S26-0001-A", "difference", 60_000),
            ("T26-0001-T", "difference", -60_000),
            ("T26-0001-T", "vessel/E26-0001-V", 35_000),
            ("T26-0001-T", "difference", 25_000),
            ("D26-0001-D", "difference", -25_000),
            ("D26-0001-D", "drum/E26-0002-W", 25_000),
        ],
        [("T26-0001-T", "S26-0001-A", 60_000), ("D26-0001-D", "T26-0001-T", 25_000)],
        left=[["vessel/E26-0001-V", "lot:S26-0001-A"]],
        came=[["vessel/E26-0001-V", "lot:T26-0001-T"], ["drum/E26-0002-W", "lot:D26-0001-D"]],
        drawn=[["vessel/E26-0001-V", "lot:T26-0001-T"]],
        touched=[["vessel/E26-0001-V"], ["drum/E26-0002-W"]],
        run="R26-0001-R",
    )
