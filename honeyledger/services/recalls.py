"""A recall case as people work at it: its scope with why, where all of it is, who has it.

The scope is walked at every question, so it is whole on the first pass and grows when the books
learn more.
"""

from collections import deque
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from honeyledger.domain.moments import format_day, house_day, moment_at
from honeyledger.domain.phrases import phrase
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import targets_of, upstream_within
from honeyledger.ledger.mixing import few
from honeyledger.ledger.places import (
    CUSTOMER,
    DIFFERENCE,
    DISCARDED,
    GATE,
    INSIDE,
    SAMPLED,
    YARD,
    class_of,
    is_source,
    key_of,
    place,
)
from honeyledger.ledger.state import Edge, Holding, Mark
from honeyledger.ledger.verbs.recalls import (
    ANSWERED,
    CASE,
    CLOSED,
    MISSING_EXPLAIN,
    MISSING_WARN,
    RECALL,
    TOLD,
    Case,
    case_from,
    find_case,
)
from honeyledger.services.holding import NOT_KNOWN, name_in, noun_of
from honeyledger.services.recall_consignees import consignees, outside, person_in, word
from honeyledger.services.recall_rows import (
    CaseHead,
    Narrowed,
    RecallCase,
    ScopeHead,
    ScopeLot,
    Step,
)
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import PlaceNames, cappings_of
from honeyledger.services.store import View

_SENT = (CUSTOMER, GATE)
_TOLD_APART = frozenset((*INSIDE, *_SENT, SAMPLED, DISCARDED, DIFFERENCE))


def case_heads(view: View, *, looked: bool = True) -> tuple[CaseHead, ...]:
    """All cases, the newest first.

    Args:
        looked: whether the scope of each is walked for how many customers have some of it.
    """
    zone = rules_of(view).zone
    heads = []
    for mark in view.marked(CASE, f"{RECALL}/"):
        if not isinstance(mark.value, Mapping):
            continue
        case = case_from(view, key_of(mark.subject), mark.entry, mark.at_ms, mark.value)
        have = None
        if looked:
            rows = outside(view, _reach(view, case)[0])
            have = len({row[0] for row in rows if class_of(row[0]) == CUSTOMER})
        told = {
            one.name.split("/")[1] for one in view.marks(case.subject) if one.name.startswith(TOLD)
        }
        heads.append(
            CaseHead(
                case.code,
                word(case.value, "about"),
                word(case.value, "sort"),
                moment_at(case.at_ms, zone),
                case.is_closed,
                have,
                len(told),
            )
        )
    return tuple(sorted(heads, key=lambda head: (-head.opened.at_ms, head.code)))


def scope_head(view: View, text: str) -> ScopeHead:
    """What is in a case and where it is, alone: the first thing to know, and soon there.

    Raises:
        Refusal: no such case.
    """
    case = find_case(view, text, is_open=False)
    scope, _ = _reach(view, case)
    here_g = shipped_g = 0
    for row in view.holdings_of(sorted(scope)):
        if class_of(row.place) in INSIDE:
            here_g += row.grams
        elif class_of(row.place) in (CUSTOMER, GATE):
            shipped_g += row.grams
    return ScopeHead(
        code=case.code,
        about=word(case.value, "about"),
        sort=word(case.value, "sort"),
        is_closed=case.is_closed,
        stands_on=_stands_on(view, case, view.lots(case.hold.lots)),
        lots=len(scope),
        here_g=here_g,
        shipped_g=shipped_g,
    )


def recall_case(view: View, now_ms: int, text: str) -> RecallCase:
    """A case by its code.

    Raises:
        Refusal: no such case.
    """
    case = find_case(view, text, is_open=False)
    zone = rules_of(view).zone
    scope, ways = _reach(view, case)
    lots = view.lots(scope)
    head = view.head()
    closed = view.mark(case.subject, CLOSED)
    end = closed.value if closed and isinstance(closed.value, Mapping) else {}
    opening = view.entry(case.entry)
    assert opening is not None
    return RecallCase(
        code=case.code,
        about=word(case.value, "about"),
        found=word(case.value, "found"),
        risk=word(case.value, "risk"),
        sort=word(case.value, "sort"),
        opened=opening.act.happened,
        opened_by=person_in(view, opening.act.operator),
        house=name_in(view, "house"),
        unit=mass_unit(view),
        today=house_day(now_ms, zone),
        stands_on=_stands_on(view, case, lots),
        upstream=_upstream(view, case),
        lots=_scope_lots(view, lots, ways),
        narrowed=_narrowed(view, case),
        consignees=consignees(view, case, lots),
        timeline=_timeline(view, case),
        is_closed=case.is_closed,
        result=word(end, "result"),
        disposal=word(end, "disposal"),
        closed_by=person_in(view, word(end, "by")),
        entries=head.entry,
        digest=head.digest,
        **_limits(view),
    )


def _limits(view: View) -> dict[str, int]:
    """From how much that is not accounted for one warns and explains, as the house sets it."""
    mark = view.mark("house", "record")
    record = mark.value if mark is not None and isinstance(mark.value, Mapping) else {}
    wanted = {"warn_from": MISSING_WARN, "explain_from": MISSING_EXPLAIN}
    found = {name: record.get(key) for name, key in wanted.items()}
    return {name: said * 10 for name, said in found.items() if isinstance(said, int)}


def _reach(view: View, case: Case) -> tuple[set[int], dict[int, int]]:
    """The lots in scope, and for each the one it was reached from, 0 for what it stands on."""
    targets = targets_of(view, case.hold)
    edges = view.descent(sorted(targets)) if targets else ()
    return _walked(targets, edges, _stops(case, targets, edges))


def _stops(case: Case, targets: set[int], edges: Sequence[Edge]) -> set[int]:
    """Lots narrowed out, unless something has come upstream of them since."""
    return {
        lot
        for lot, known in case.hold.cleared.items()
        if upstream_within(lot, targets, edges) <= known
    }


def _walked(
    targets: Collection[int], edges: Sequence[Edge], stops: Collection[int]
) -> tuple[set[int], dict[int, int]]:
    children: dict[int, list[int]] = {}
    for edge in edges:
        children.setdefault(edge.parent, []).append(edge.child)
    ways = dict.fromkeys(sorted(targets), 0)
    waiting = deque(ways)
    while waiting:
        lot = waiting.popleft()
        for child in children.get(lot, ()):
            if child not in ways and child not in stops:
                ways[child] = lot
                waiting.append(child)
    return set(ways), ways


def _scope_lots(
    view: View, lots: Mapping[int, Lot], ways: Mapping[int, int]
) -> tuple[ScopeLot, ...]:
    """Every lot in scope, what is in the house first."""
    standing: dict[int, _Standing] = {lot: _Standing() for lot in lots}
    for row in view.holdings_of(sorted(lots)):
        if not is_source(row.place):
            standing[row.lot].add(row)
    names = PlaceNames(view)
    rows = [_scope_lot(view, lot, standing[lot.id], ways, lots, names) for lot in lots.values()]
    return tuple(sorted(rows, key=lambda row: (not row.here_g, not row.shipped_g, row.code)))


class _Standing:
    """Where one lot is: grams and pieces of each class of places, and the places in the house."""

    def __init__(self) -> None:
        self.grams: dict[str, int] = {}
        self.pieces: dict[str, int] = {}
        self.inside: list[str] = []

    def add(self, row: Holding) -> None:
        kind = class_of(row.place)
        self.grams[kind] = self.grams.get(kind, 0) + row.grams
        self.pieces[kind] = self.pieces.get(kind, 0) + row.pieces
        if kind in INSIDE:
            self.inside.append(row.place)


def _sum_of(parts: Mapping[str, int], kinds: Iterable[str]) -> int:
    return sum(parts.get(kind, 0) for kind in kinds)


def _scope_lot(
    view: View,
    lot: Lot,
    at: _Standing,
    ways: Mapping[int, int],
    lots: Mapping[int, Lot],
    names: PlaceNames,
) -> ScopeLot:
    difference_g = at.grams.get(DIFFERENCE, 0)
    # What a barrel holds that the books never saw in the line is what it was made of.
    from_nothing = cappings_of(view, lot)[0] if lot.kind == "W" and difference_g < 0 else 0
    return ScopeLot(
        code=lot.code,
        noun=noun_of(view, lot),
        where=", ".join(dict.fromkeys(names[where] for where in at.inside)),
        why=_way(lot.id, ways, lots),
        made_g=lot.made_g,
        here_g=_sum_of(at.grams, INSIDE),
        shipped_g=_sum_of(at.grams, _SENT),
        sampled_g=at.grams.get(SAMPLED, 0),
        destroyed_g=at.grams.get(DISCARDED, 0),
        other_g=sum(grams for kind, grams in at.grams.items() if kind not in _TOLD_APART)
        + min(0, difference_g)
        - from_nothing,
        went_on_g=lot.made_g - sum(at.grams.values()) + from_nothing,
        missing_g=max(0, difference_g),
        here_pieces=_sum_of(at.pieces, INSIDE),
        shipped_pieces=_sum_of(at.pieces, _SENT),
    )


def _way(lot: int, ways: Mapping[int, int], lots: Mapping[int, Lot]) -> tuple[str, ...]:
    """The lots between what the case stands on and a lot, that itself first."""
    steps = []
    at = ways[lot]
    while at:
        steps.append(lots[at].code)
        at = ways[at]
    return tuple(reversed(steps))


def _narrowed(view: View, case: Case) -> tuple[Narrowed, ...]:
    rows = []
    for mark in view.marks(case.hold.subject):
        if mark.name.startswith("cleared/") and isinstance(mark.value, Mapping):
            lot = view.lot(int(mark.name.partition("/")[2]))
            why = "; ".join(
                w for w in (word(mark.value, "result"), word(mark.value, "reason")) if w
            )
            rows.append(Narrowed(lot.code, why, person_in(view, word(mark.value, "by"))))
    return tuple(sorted(rows, key=lambda row: row.code))


def _stands_on(view: View, case: Case, lots: Mapping[int, Lot]) -> str:
    target = case.hold.target
    if class_of(target) != YARD:
        return ", ".join(lots[lot].code for lot in case.hold.lots if lot in lots)
    name = name_in(view, target, key_of(target))
    days = [day for day in (case.hold.first_day, case.hold.last_day) if day]
    if not days:
        return phrase("{yard}, all its pulls", yard=name)
    said = [format_day(date.fromisoformat(day)) for day in days]
    if len(said) == 2:
        return phrase("{yard}, {first} to {last}", yard=name, first=said[0], last=said[1])
    if case.hold.first_day:
        return phrase("{yard}, from {first}", yard=name, first=said[0])
    return phrase("{yard}, to {last}", yard=name, last=said[0])


def _upstream(view: View, case: Case) -> tuple[str, ...]:
    """Where what the case stands on came from: the page before it."""
    targets = targets_of(view, case.hold)
    above = {edge.parent for edge in view.ancestry(sorted(targets))} if targets else set()
    rows = view.sources_of(sorted(targets | above))
    places = sorted({row.place for row in rows if row.grams < 0 and is_source(row.place)})
    names = view.names_of(places)
    return tuple(sorted(names.get(where, key_of(where) or NOT_KNOWN) for where in places))


def _timeline(view: View, case: Case) -> tuple[Step, ...]:
    """All that was entered of the case, in the order in which it happened."""
    marks = [
        *view.marks(case.subject),
        *(one for one in view.marks(case.hold.subject) if one.name.startswith("cleared/")),
    ]
    entries = {mark.entry for mark in marks}
    steps = []
    for number in sorted(entries):
        entry = view.entry(number)
        assert entry is not None
        words = _step_words(view, [mark for mark in marks if mark.entry == number])
        steps.append(Step(entry.act.happened, words, person_in(view, entry.act.operator)))
    return tuple(sorted(steps, key=lambda step: step.at.at_ms))


def _step_words(view: View, marks: Sequence[Mark]) -> str:
    names = [
        name_in(view, place(CUSTOMER, mark.name.split("/")[1]), mark.name.split("/")[1])
        for mark in marks
        if mark.name.startswith(TOLD) or mark.name.startswith(ANSWERED)
    ]
    first = marks[0]
    value = first.value if isinstance(first.value, Mapping) else {}
    if first.name.startswith(TOLD):
        return phrase("Told {who} by {how}", who=few(names), how=word(value, "how"))
    if first.name.startswith(ANSWERED):
        return phrase("{who} answered", who=few(names))
    if first.name.startswith("cleared/"):
        code = view.lot(int(first.name.partition("/")[2])).code
        return phrase("{code} taken out of the scope: {why}", code=code, why=word(value, "result"))
    if first.name == CLOSED:
        return phrase("Closed: {result}", result=word(value, "result"))
    return phrase("Opened: {about}", about=word(value, "about"))
