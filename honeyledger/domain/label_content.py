"""What a market wants on a jar's label, as data: its lines, and how high the type has to be.

A line that nobody has seen in its source is told and asks for nothing; what was seen, or is the
house's own, has to be there before a label is printed. None of this is advice on law: what counts
is the text in force where the jar is sold.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.standards import Mark

NO_SUCH_ITEM = Sentence(
    "no-such-item-of-a-label", "A label has no item called {item}: choose of {items}."
)
NO_MARKET_NAMED = Sentence(
    "wording-names-no-market", "Say for which market this wording is, such as EU or own."
)
NO_WORDING = Sentence(
    "wording-says-nothing", "Choose the item that has to be there, or type the text to print."
)

OWN = "own"
"""The market of a product that is for none by name."""
(NAME, NET, PARTY, ADDRESS, ORIGIN, LOT, BEST_BEFORE, GRADE, COLOUR, STYLE, CAUTION, STORAGE) = (
    *("name", "net", "party", "address", "origin", "lot", "best before", "grade", "colour class"),
    *("style", "caution", "storage"),
)
ITEMS = {
    NAME: phrase("the name of the food"),
    NET: phrase("the net quantity"),
    PARTY: phrase("who answers for it"),
    ADDRESS: phrase("the address of who answers for it"),
    ORIGIN: phrase("the countries of origin"),
    LOT: phrase("the lot mark"),
    BEST_BEFORE: phrase("best before"),
    GRADE: phrase("the grade"),
    COLOUR: phrase("the colour class"),
    STYLE: phrase("the style (liquid, creamed, pressed …)"),
    CAUTION: phrase("the caution about infants"),
    STORAGE: phrase("how to store it"),
}
LOOK = "look"
"""An item the books know nothing of: told, to be looked at by a person."""
TEXT, FIGURES = "text", "figures"
PANEL, NET_CONTENT = "panel", "net"
METRIC, US_FIRST = "metric", "us first"
GRADED, SHORT_LIVED = "graded", "keeps 90 days or less"
CONDITIONS = ("", GRADED, SHORT_LIVED)


@dataclass(frozen=True, slots=True)
class ContentLine:
    """One thing a market wants on a label.

    Args:
        item: one of `ITEMS`, or `LOOK`.
        source, as_of: where it is written, and which edition or of what date.
        when: "" for always, else one of `CONDITIONS`.
        on_front: it belongs in the main field of view.
        shares: of an origin: each country of a blend with its share.
        text: of `LOOK`, what to look at; of a house's own, the words to print.
    """

    item: str
    mark: Mark
    source: str
    as_of: str
    when: str = ""
    on_front: bool = False
    shares: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class HeightRule:
    """The least height of type: of a small x, or of figures, by steps of panel or net content.

    Args:
        of: `TEXT` (a small letter without stem, such as x or o) or `FIGURES` (of the net content).
        by: `PANEL` in square millimetres, or `NET_CONTENT` in grams.
        steps: up to and with this much, so many millimetres; the last has no end (None).
        below: a step is for less than it says, not up to and with it.
    """

    of: str
    by: str
    steps: tuple[tuple[int | None, float], ...]
    mark: Mark
    source: str
    as_of: str
    below: bool = False

    def least_mm(self, panel_mm2: float, net_g: int) -> float:
        """The height it asks for."""
        amount = panel_mm2 if self.by == PANEL else net_g
        for upto, height in self.steps:
            if upto is None or (amount < upto if self.below else amount <= upto):
                return height
        return self.steps[-1][1]


@dataclass(frozen=True, slots=True)
class Market:
    """What one market wants.

    Args:
        names: how a product's record may call it; the first is how it is told.
        units: `METRIC`, or `US_FIRST`: ounces and pounds, then grams.
    """

    key: str
    names: tuple[str, ...]
    units: str
    lines: tuple[ContentLine, ...]
    heights: tuple[HeightRule, ...] = ()

    @property
    def name(self) -> str:
        """How it is told."""
        return self.names[0]

    def is_called(self, name: str) -> bool:
        """Whether a record means it by this name."""
        return name.casefold() in (self.key, *(one.casefold() for one in self.names))


@dataclass(frozen=True, slots=True)
class Asked:
    """A line as one market asks for it."""

    market: str
    line: ContentLine

    @property
    def words(self) -> str:
        """What it is, with the market and where that is written."""
        what = ITEMS[self.line.item]
        shown = {"what": what, "market": self.market, "source": self.line.source}
        return phrase("{what} ({market}: {source})", **shown)


@dataclass(frozen=True, slots=True)
class Said:
    """What a label would say.

    Args:
        items: the words of each item, "" where there are none.
        keeps_months: how long it keeps, None where nobody said.
        shares_told: whether its origin names each country of a blend with its share.
    """

    items: Mapping[str, str]
    keeps_months: int | None = None
    shares_told: bool = True

    def meets(self, line: ContentLine) -> bool:
        """Whether the line is there, or is not wanted of this one."""
        if line.item == LOOK or not self._is_due(line):
            return True
        there = bool(self.items.get(line.item, "").strip())
        return there and (not line.shares or self.shares_told)

    def _is_due(self, line: ContentLine) -> bool:
        if line.when == GRADED:
            return bool(self.items.get(GRADE, "").strip())
        if line.when == SHORT_LIVED:
            return self.keeps_months is not None and self.keeps_months <= 3
        return True


def markets_named(markets: Sequence[Market], names: Iterable[str]) -> tuple[Market, ...]:
    """The markets a record names; those of no file are left out; without any name, the own one."""
    wanted = [name.strip() for name in names if name.strip()] or [OWN]
    found = [one for name in wanted for one in markets if one.is_called(name)]
    return tuple(dict.fromkeys(found))


def lacking(markets: Iterable[Market], said: Said) -> tuple[Asked, ...]:
    """What is not on the label and has to be; what was not seen in its source is left out."""
    return tuple(one for one in _not_met(markets, said) if one.line.mark.decides)


def doubtful(markets: Iterable[Market], said: Said) -> tuple[Asked, ...]:
    """What is not on the label and may have to be: nobody has seen it in its source."""
    return tuple(one for one in _not_met(markets, said) if not one.line.mark.decides)


def _not_met(markets: Iterable[Market], said: Said) -> list[Asked]:
    return [
        Asked(market.name, line)
        for market in markets
        for line in market.lines
        if not said.meets(line)
    ]


def heights_of(markets: Iterable[Market]) -> tuple[HeightRule, ...]:
    """The heights all these markets ask for."""
    return tuple(rule for market in markets for rule in market.heights)


def least_height_mm(
    rules: Iterable[HeightRule], of: str, panel_mm2: float, net_g: int, *, verified: bool
) -> float:
    """The least height that satisfies all rules; 0 where there is none.

    Args:
        verified: only of rules somebody has seen in their source.
    """
    return max(
        (
            rule.least_mm(panel_mm2, net_g)
            for rule in rules
            if rule.of == of and (rule.mark.decides or not verified)
        ),
        default=0.0,
    )


def check_wording(record: Mapping[str, object]) -> None:
    """Whether a house's own wording says what it is about.

    Raises:
        Refusal: no market, an item no label has, or neither an item nor a text.
    """
    item = str(record.get("item", "")).strip()
    if not str(record.get("market", "")).strip():
        raise Refusal(NO_MARKET_NAMED, field="market")
    if item and item not in ITEMS:
        raise Refusal(NO_SUCH_ITEM, field="item", item=item, items=", ".join(ITEMS))
    if not item and not str(record.get("text", "")).strip():
        raise Refusal(NO_WORDING, field="item")


def with_own(
    markets: Sequence[Market], records: Iterable[Mapping[str, object]]
) -> tuple[Market, ...]:
    """These markets with a house's own wordings over them; one of no file becomes a market.

    What the house says of an item takes the place of what was shipped of it: a line left out is
    not asked for any more.
    """
    found = list(markets)
    for record in records:
        name = str(record.get("market", "")).strip()
        at = next((at for at, one in enumerate(found) if one.is_called(name)), None)
        if at is None:
            found.append(Market(name.casefold(), (name,), METRIC, ()))
            at = len(found) - 1
        found[at] = _with(found[at], record)
    return tuple(found)


def _with(market: Market, record: Mapping[str, object]) -> Market:
    item = str(record.get("item", "")).strip()
    rest = tuple(line for line in market.lines if not item or line.item != item)
    if record.get("left_out"):
        return replace(market, lines=rest)
    before = next((line for line in market.lines if line.item == item), None)
    own = ContentLine(
        item=item or LOOK,
        mark=Mark.OWN,
        source=str(record.get("source", "")).strip() or str(record.get("name", "")),
        as_of=str(record.get("as_of", "")),
        on_front=before.on_front if before else False,
        shares=before.shares if before else False,
        text=str(record.get("text", "")).strip(),
    )
    return replace(market, lines=(*rest, own))


def printed_texts(markets: Iterable[Market]) -> tuple[str, ...]:
    """The words a house wants printed besides, each once."""
    own = (
        line.text
        for market in markets
        for line in market.lines
        if line.mark is Mark.OWN and line.text
    )
    return tuple(dict.fromkeys(own))
