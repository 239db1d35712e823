"""What a market or a grade asks of honey, as data, and what a lot's results say to it.

A rule speaks of one property and may be for some kinds of honey only; the rule that is most
particular counts. Where nobody said what kind it is, a result passes only if it would as any kind.
A rule whose figure nobody has seen in its source is shown and decides nothing: it never passes,
fails or blocks. None of this is advice on law: what counts is the text in force where it is sold.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import Enum

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.results import Result, within

NO_SUCH_KIND = Sentence(
    "no-such-kind-of-honey",
    "No rule of {standard} speaks of {kind}: choose of {kinds}.",
)
NO_SUCH_STANDARD = Sentence(
    "no-such-standard", "There are no rules called {name}: choose one of {names}."
)


class Mark(Enum):
    """How well a rule's figure is known."""

    SEEN = "S"
    SECOND_HAND = "S2"
    COMPUTED = "C"
    FROM_MEMORY = "M"
    OWN = "own"

    @property
    def decides(self) -> bool:
        """Whether the figure was seen, computed from what was, or is the house's own."""
        return self in (Mark.SEEN, Mark.COMPUTED, Mark.OWN)


class Outcome(Enum):
    """What a rule says of a result."""

    PASS = "pass"
    FAIL = "fail"
    UNKNOWN = "unknown"
    UNVERIFIED = "unverified"


class Why(Enum):
    """Why it is not known."""

    NOTHING = ""
    NOT_MEASURED = "not measured"
    NOT_ENOUGH = "the result does not say"
    KIND = "say what kind of honey it is"
    OTHER = "it depends on what was not measured"


@dataclass(frozen=True, slots=True)
class Given:
    """A rule holds only where another property, named by `what`, is within these bounds."""

    what: str
    lowest: Decimal | None = None
    highest: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Rule:
    """One limit, its bounds inclusive; without bounds it says that there is no limit.

    Args:
        what: the property, such as "moisture".
        all_of: kinds of honey it is for, all of them at once; none where it is for any.
        any_of: kinds of honey of which one is enough.
        source: where it is written; as_of: which edition, or of what date.
    """

    what: str
    unit: str
    lowest: Decimal | None
    highest: Decimal | None
    mark: Mark
    source: str
    as_of: str
    all_of: frozenset[str] = frozenset()
    any_of: frozenset[str] = frozenset()
    given: Given | None = None
    note: str = ""

    @property
    def kinds(self) -> frozenset[str]:
        """All kinds it speaks of."""
        return self.all_of | self.any_of

    @property
    def particular(self) -> int:
        """How particular it is."""
        return len(self.all_of) + bool(self.any_of) + (self.given is not None)

    @property
    def limit(self) -> str:
        """The limit in words, with its condition."""
        limit = f"{_bounds(self.lowest, self.highest)} {self.unit}".rstrip()
        if self.lowest is None and self.highest is None:
            limit = "no limit"
        if self.given is None:
            return limit
        return f"{limit} with {self.given.what} {_bounds(self.given.lowest, self.given.highest)}"

    def is_for(self, kinds: frozenset[str]) -> bool:
        """Whether it is for honey of these kinds."""
        return self.all_of <= kinds and (not self.any_of or bool(self.any_of & kinds))


@dataclass(frozen=True, slots=True)
class Standard:
    """The rules of a market, or of one grade there.

    Args:
        scheme: the grades that belong together; order: the best is 1. "" and 0 where it is none.
    """

    name: str
    market: str
    title: str
    rules: tuple[Rule, ...]
    scheme: str = ""
    order: int = 0
    note: str = ""

    @property
    def kinds(self) -> tuple[str, ...]:
        """All kinds of honey its rules speak of, and plain blossom honey."""
        return tuple(sorted({"blossom"}.union(*(rule.kinds for rule in self.rules))))


@dataclass(frozen=True, slots=True)
class Judged:
    """A property under a standard: the rule that counts, the result, what follows."""

    rule: Rule
    result: Result | None
    outcome: Outcome
    why: Why = Why.NOTHING


@dataclass(frozen=True, slots=True)
class Verdict:
    """A lot under a standard."""

    standard: Standard
    rows: tuple[Judged, ...]

    @property
    def outcome(self) -> Outcome:
        """Fail where one fails, unknown where one is; unverified where no rule could decide."""
        found = {row.outcome for row in self.rows}
        for outcome in (Outcome.FAIL, Outcome.UNKNOWN, Outcome.PASS):
            if outcome in found:
                return outcome
        return Outcome.UNVERIFIED

    @property
    def unverified(self) -> int:
        """How many rules are shown only."""
        return sum(row.outcome is Outcome.UNVERIFIED for row in self.rows)


def judged(
    standard: Standard, results: Mapping[str, Result], kinds: Iterable[str] | None = None
) -> Verdict:
    """What results say to the rules of a standard, each property once, in the order of its rules.

    Args:
        kinds: what kinds of honey it is; None where nobody said.

    Raises:
        Refusal: no rule speaks of one of the kinds.
    """
    said = None if kinds is None else frozenset(kind.strip().casefold() for kind in kinds)
    for kind in sorted(said or ()):
        if kind not in standard.kinds:
            raise Refusal(
                NO_SUCH_KIND,
                field="kinds",
                standard=standard.title,
                kind=kind,
                kinds=", ".join(standard.kinds),
            )
    rows = []
    for name in dict.fromkeys(rule.what for rule in standard.rules):
        rules = [rule for rule in standard.rules if rule.what == name]
        if said is None:
            rows.append(_as_any_kind(rules, results))
        elif fitting := [rule for rule in rules if rule.is_for(said)]:
            fitting.sort(key=lambda rule: -rule.particular)
            rows.append(_by_most_particular(fitting, results))
    return Verdict(standard, tuple(rows))


def grade_of(verdicts: Sequence[Verdict]) -> Standard | None:
    """The grade of a lot among those of one scheme; None where it is not known, or none fits.

    It is the best one that passes, if every better one fails: one that is unknown or unverified
    might be it as well.
    """
    for verdict in sorted(verdicts, key=lambda one: one.standard.order):
        if verdict.outcome is not Outcome.FAIL:
            sure = verdict.outcome is Outcome.PASS and not verdict.unverified
            return verdict.standard if sure else None
    return None


def with_own(standards: Sequence[Standard], own: Sequence[Standard]) -> tuple[Standard, ...]:
    """The standards with a house's own: its rules replace those they are about, or are new."""
    merged = {one.name: one for one in standards}
    for mine in own:
        theirs = merged.get(mine.name)
        if theirs is None:
            merged[mine.name] = mine
            continue
        about = {_about(rule) for rule in mine.rules}
        kept = tuple(rule for rule in theirs.rules if _about(rule) not in about)
        merged[mine.name] = replace(theirs, rules=kept + mine.rules)
    return tuple(merged.values())


def named(standards: Sequence[Standard], name: str) -> Standard:
    """The standard of a name.

    Raises:
        Refusal: there is none.
    """
    found = next((one for one in standards if one.name == name.strip().casefold()), None)
    if found is None:
        names = ", ".join(one.name for one in standards)
        raise Refusal(NO_SUCH_STANDARD, field="standard", name=name, names=names)
    return found


def _bounds(lowest: Decimal | None, highest: Decimal | None) -> str:
    if lowest is None:
        return f"at most {highest}"
    return f"at least {lowest}" if highest is None else f"{lowest} to {highest}"


def _about(rule: Rule) -> tuple[object, ...]:
    return rule.what, rule.all_of, rule.any_of, rule.given and rule.given.what


def _by_most_particular(rules: Sequence[Rule], results: Mapping[str, Result]) -> Judged:
    """The first rule counts; one on a condition gives way where that is not met."""
    first, rest = rules[0], rules[1:]
    holds = _holds(first, results)
    if holds is False and rest:
        return _by_most_particular(rest, results)
    if holds is None and rest:
        alone, other = _alone(first, results), _by_most_particular(rest, results)
        same = alone.outcome is other.outcome
        return other if same else replace(other, outcome=Outcome.UNKNOWN, why=Why.OTHER)
    return _alone(first, results)


def _as_any_kind(rules: Sequence[Rule], results: Mapping[str, Result]) -> Judged:
    """What would follow as each kind of honey that a rule speaks of; the plainest is shown."""
    rows = []
    for kinds in dict.fromkeys(kinds for rule in rules for kinds in _kinds_of(rule)):
        fitting = [rule for rule in rules if rule.is_for(kinds)]
        fitting.sort(key=lambda rule: -rule.particular)
        rows.append(_by_most_particular(fitting, results))
    shown = min(rows, key=lambda row: len(row.rule.kinds))
    sure = [row for row in rows if row.rule.mark.decides]
    outcomes = {row.outcome for row in sure}
    if outcomes == {Outcome.PASS}:
        return next(row for row in (shown, *sure) if row.outcome is Outcome.PASS)
    if not sure or shown.why is Why.NOT_MEASURED:
        return shown
    if len(outcomes) == 1 and len(sure) == len(rows):
        return shown
    return replace(shown, outcome=Outcome.UNKNOWN, why=Why.KIND)


def _kinds_of(rule: Rule) -> list[frozenset[str]]:
    """The plainest kinds of honey that a rule is for."""
    return [rule.all_of | {one} for one in sorted(rule.any_of)] or [rule.all_of]


def _holds(rule: Rule, results: Mapping[str, Result]) -> bool | None:
    if rule.given is None:
        return True
    other = results.get(rule.given.what)
    return within(other, rule.given.lowest, rule.given.highest) if other is not None else None


def _alone(rule: Rule, results: Mapping[str, Result]) -> Judged:
    """A result under one rule and no other."""
    result = results.get(rule.what)
    if not rule.mark.decides:
        return Judged(rule, result, Outcome.UNVERIFIED)
    if rule.lowest is None and rule.highest is None:
        return Judged(rule, result, Outcome.PASS)
    if result is None:
        return Judged(rule, None, Outcome.UNKNOWN, Why.NOT_MEASURED)
    is_within = within(result, rule.lowest, rule.highest)
    if is_within is None:
        return Judged(rule, result, Outcome.UNKNOWN, Why.NOT_ENOUGH)
    return Judged(rule, result, Outcome.PASS if is_within else Outcome.FAIL)
