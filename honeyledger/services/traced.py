"""What a code stands for when it is traced: a lot, or the fills one jar may be of."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import JarCode
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot, read_code
from honeyledger.ledger.state import Edge, EdgeRow
from honeyledger.ledger.trace import AMENDED, LATE, MARGIN, Start
from honeyledger.services.store import View

TYPED_LATE_MS = 10 * 60_000  # typed this much after it happened: late, not the margin's doing

NO_SUCH_JAR = Sentence(
    "no-such-jar", "Lot {code} has {jars} jars, so there is no serial {serial}. Scan it again."
)


@dataclass(frozen=True, slots=True)
class Traced:
    """What is traced back: a lot, or the fills a jar may be of."""

    code: str
    lot: Lot
    grams: int
    starts: Mapping[int, Start]


def traced_by(view: View, text: str) -> Traced:
    code = read_code(view, text, "code")
    lot = find_lot(view, text, field="code")
    if not isinstance(code, JarCode):
        return Traced(lot.code, lot, lot.made_g, {lot.id: Start(1.0)})
    return _jar(view, code, lot)


def _jar(view: View, code: JarCode, lot: Lot) -> Traced:
    """One jar: in equal parts of every fill its serial may belong to, within the margin.

    Serials bound only the fills they were frozen with. What else is among the lot's origins,
    added late or clinging in the filler, may be in any jar of it; what was narrowed is in none.
    """
    jars, margin, net_g = (_whole(lot, name) for name in ("jars", "margin", "net_g"))
    if not 1 <= code.serial <= jars:
        raise Refusal(
            NO_SUCH_JAR, field="code", code=lot.code, jars=jars, serial=f"{code.serial:05d}"
        )
    segments = lot.attributes.get("segments", ())
    assert isinstance(segments, Sequence)
    origins = view.origins(lot.id)
    counting = {edge.parent for edge in origins}
    bounded: set[int] = set()
    exact: dict[int, None] = {}
    near: dict[int, None] = {}
    for segment in segments:
        assert isinstance(segment, Sequence)
        fill, first, last = (int(str(part)) for part in segment)
        bounded.add(fill)
        if fill not in counting:
            continue
        if first <= code.serial <= last:
            exact[fill] = None
        elif first - margin <= code.serial <= last + margin:
            near[fill] = None
    if not exact:
        return Traced(str(code), lot, net_g, {lot.id: Start(1.0)})
    # The first lot of a segment is the fill drawn; the others are in its reach at 0 g.
    fills = _fills(segments, code.serial, margin)
    ran = _fills(segments, code.serial, 0)
    starts = {
        one: Start(1.0 / len(fills), by_margin=one not in ran)
        if one in fills
        else Start(0.0, by_margin=one not in exact)
        for one in {**exact, **near}
    }
    for one, start in _in_any_jar(view, origins, bounded).items():
        starts.setdefault(one, start)
    return Traced(str(code), lot, net_g, starts)


def _in_any_jar(view: View, origins: Sequence[Edge], bounded: set[int]) -> dict[int, Start]:
    """Origins of a jar lot that no serials bound: reach only, for every jar."""
    late_ways = late_ways_of(view, origins)
    return {
        edge.parent: Start(0.0, late_way=late_ways[edge.entry] if edge.late else 0)
        for edge in origins
        if edge.late or edge.parent not in bounded
    }


def _fills(segments: Sequence[object], serial: int, margin: int) -> set[int]:
    seen: set[tuple[int, int]] = set()
    fills: set[int] = set()
    for segment in segments:
        assert isinstance(segment, Sequence)
        fill, first, last = (int(str(part)) for part in segment)
        if (first, last) not in seen and first - margin <= serial <= last + margin:
            fills.add(fill)
        seen.add((first, last))
    return fills


def _whole(lot: Lot, name: str) -> int:
    value = lot.attributes.get(name, 0)
    return value if isinstance(value, int) else 0


def late_ways_of(view: View, edges: Sequence[EdgeRow]) -> dict[int, int]:
    """What each entry that wrote late rows stands for: the margin, a late typing, an amendment."""
    typed = view.typed({edge[4] for edge in edges if edge[3]})
    return {
        entry: AMENDED if kind == "amend" else LATE if after_ms > TYPED_LATE_MS else MARGIN
        for entry, (kind, after_ms) in typed.items()
    }
