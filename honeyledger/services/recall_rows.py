"""What a recall case is shown as: frozen rows with the sums that stand under them.

Amounts of each lot add up: made is here, shipped, sampled, destroyed, other, went on and
unaccounted. Columns follow 21 CFR 7.46 and 7.53 (public copies seen).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import Moment
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.holds import way_text

WARN_FROM, EXPLAIN_FROM = 200, 500
"""Hundredths of a percent not accounted for: to look at, and to explain (common practice, no
source); a house may set its own."""


@dataclass(frozen=True, slots=True)
class CaseHead:
    """A case in the list; `customers` have some of it, None where nobody has looked yet.

    Args:
        told: how many customers were told.
    """

    code: str
    about: str
    sort: str
    opened: Moment
    is_closed: bool
    customers: int | None
    told: int


@dataclass(frozen=True, slots=True)
class ScopeHead:
    """The first answer of a case: what is in it, before all that is asked of it."""

    code: str
    about: str
    sort: str
    is_closed: bool
    stands_on: str
    lots: int
    here_g: int
    shipped_g: int


@dataclass(frozen=True, slots=True)
class ScopeLot:
    """A lot in scope: grams, and pieces where it is counted.

    Args:
        why: the lots by which it comes from what the case stands on; () for that itself.
        went_on_g: what further lots were made of; those are rows of their own.
        other_g: dried off, fed, wax: known, and neither here nor sent.
    """

    code: str
    noun: str
    where: str
    why: tuple[str, ...]
    made_g: int
    here_g: int
    shipped_g: int
    sampled_g: int
    destroyed_g: int
    other_g: int
    went_on_g: int
    missing_g: int
    here_pieces: int
    shipped_pieces: int

    @property
    def why_text(self) -> str:
        """The way in words."""
        return way_text(self.why)


@dataclass(frozen=True, slots=True)
class Narrowed:
    """A lot that was taken out of the scope by name, and stays to be seen."""

    code: str
    reason: str
    by: str


@dataclass(frozen=True, slots=True)
class Notice:
    """That a customer was told: when, by whom, how, and who took it."""

    entry: int
    at: Moment
    by: str
    how: str
    whom: str
    note: str


@dataclass(frozen=True, slots=True)
class Consignee:
    """Who has, or had, some of it.

    Args:
        key: the customer's key, "" at the farm gate.
        details: address, phone, e-mail as on record.
        has_g, has_pieces: by the books, now; `back_g` came back.
        notes: the papers it went by, each with its day ISO.
        told: every notice, the first one first.
        here_g, here_pieces: on their hand still by their latest answer; None where they said
            nothing of it.
    """

    key: str
    name: str
    details: Mapping[str, str]
    lots: tuple[str, ...]
    has_g: int
    has_pieces: int
    back_g: int
    notes: tuple[tuple[str, str], ...]
    told: tuple[Notice, ...]
    answered: Moment | None
    here_g: int | None
    here_pieces: int | None
    destroyed_g: int
    destroyed_pieces: int
    proof: str
    passed_on: str

    @property
    def open_g(self) -> int:
        """What they got and neither sent back nor proved to have destroyed."""
        return max(0, self.has_g - self.destroyed_g)


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the case's timeline."""

    at: Moment
    what: str
    by: str


@dataclass(frozen=True, slots=True)
class RecallCase:
    """The whole case.

    Args:
        stands_on: what was called back, in words: a yard with its days, or codes.
        upstream: yards and suppliers in reach of what it stands on, by name.
        result, disposal, closed_by: of a closed one, "" of an open one.
        warn_from, explain_from: hundredths of a percent that may not be accounted for.
    """

    code: str
    about: str
    found: str
    risk: str
    sort: str
    opened: Moment
    opened_by: str
    house: str
    unit: MassUnit
    today: date
    stands_on: str
    upstream: tuple[str, ...]
    lots: tuple[ScopeLot, ...]
    narrowed: tuple[Narrowed, ...]
    consignees: tuple[Consignee, ...]
    timeline: tuple[Step, ...]
    is_closed: bool
    result: str
    disposal: str
    closed_by: str
    entries: int
    digest: str
    warn_from: int = WARN_FROM
    explain_from: int = EXPLAIN_FROM

    @property
    def here_g(self) -> int:
        """What of it is in the house."""
        return sum(lot.here_g for lot in self.lots)

    @property
    def shipped_g(self) -> int:
        """What customers have by the books."""
        return sum(lot.shipped_g for lot in self.lots)

    @property
    def missing_g(self) -> int:
        """What nobody knows the whereabouts of."""
        return sum(lot.missing_g for lot in self.lots)

    @property
    def whole_g(self) -> int:
        """All of it, each gram once: what went on is counted where it went."""
        return sum(
            lot.here_g
            + lot.shipped_g
            + lot.sampled_g
            + lot.destroyed_g
            + lot.other_g
            + lot.missing_g
            for lot in self.lots
        )

    @property
    def accounted(self) -> int:
        """Hundredths of a percent that are accounted for."""
        whole = self.whole_g
        return 10_000 - round(self.missing_g * 10_000 / whole) if whole else 10_000

    @property
    def to_tell(self) -> int:
        """How many customers can be told; the farm gate knows nobody's name."""
        return sum(bool(one.key) for one in self.consignees)

    @property
    def told(self) -> int:
        """How many customers were told."""
        return sum(bool(one.told) for one in self.consignees)

    @property
    def answered(self) -> int:
        """How many customers answered."""
        return sum(one.answered is not None for one in self.consignees)

    @property
    def recovered_g(self) -> int:
        """What came back, and what was destroyed at theirs with a proof."""
        return sum(one.back_g + min(one.destroyed_g, one.has_g) for one in self.consignees)

    @property
    def sent_g(self) -> int:
        """All that was ever sent to them."""
        return sum(one.has_g + one.back_g for one in self.consignees)


@dataclass(frozen=True, slots=True)
class RecallPaper:
    """What is printed of a case: the letters to all who have some of it, or the report.

    Args:
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, after the first.
    """

    case: RecallCase
    letters: bool
    printed: str = ""
    again: int = 0
