"""A honey house of pipes and vessels, apart from the program, in which nothing ever runs clean.

Honey is kept as grams by source (a yard's code, a supplier's key) in every pipe, sump, tank, drum
and filler head. What is emptied keeps a film, and the film mixes with whatever comes next, until
the place is truly washed: so anything that was ever there leaves a trace above 0 g behind it.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

Honey = dict[str, float]
FILM_G = 40.0
CAPPINGS = 0.12  # of a load; "at least 10 % of the crop", a manual's figure


def weight(honey: Mapping[str, float]) -> float:
    """Grams in all."""
    return sum(honey.values())


def mixed(parts: Iterable[Mapping[str, float]]) -> Honey:
    """Several honeys together."""
    whole: Honey = {}
    for part in parts:
        for source, grams in part.items():
            whole[source] = whole.get(source, 0.0) + grams
    return whole


class Spot:
    """One place honey runs through; it mixes at once, and a film clings when it is emptied."""

    def __init__(self, film_g: float = FILM_G) -> None:
        self.film_g = film_g
        self.honey: Honey = {}

    @property
    def total_g(self) -> float:
        """Grams that can be taken out: all but the film."""
        return max(0.0, weight(self.honey) - self.film_g)

    @property
    def sources(self) -> frozenset[str]:
        """Whatever is in here, in however small a trace."""
        return frozenset(source for source, grams in self.honey.items() if grams > 0)

    def pour(self, honey: Mapping[str, float]) -> None:
        """Honey comes in."""
        self.honey = mixed([self.honey, honey])

    def draw(self, grams: float) -> Honey:
        """Grams go out, each source in proportion."""
        there = weight(self.honey)
        part = min(grams, self.total_g) / there if there else 0.0
        taken = {source: amount * part for source, amount in self.honey.items()}
        self.honey = {source: amount - taken[source] for source, amount in self.honey.items()}
        return taken

    def drain(self) -> Honey:
        """All goes out but the film."""
        return self.draw(self.total_g)

    def wash(self) -> None:
        """Nothing is left, not even a trace."""
        self.honey = {}


class Vessel:
    """A tank with its outlet: what leaves it runs through the outlet and leaves a film there."""

    def __init__(self, name: str, code: str) -> None:
        self.name = name
        self.code = code
        self.body = Spot(film_g=300.0)
        self.outlet = Spot()

    @property
    def total_g(self) -> float:
        """Grams that can be taken out."""
        return self.body.total_g

    def pour(self, honey: Mapping[str, float]) -> None:
        """Honey comes in at the top."""
        self.body.pour(honey)

    def draw(self, grams: float) -> Honey:
        """Honey goes out through the outlet."""
        self.outlet.pour(self.body.draw(grams))
        return self.outlet.drain()

    def wash(self) -> None:
        """Body and outlet are washed."""
        self.body.wash()
        self.outlet.wash()


class Line(Vessel):
    """Uncapper, extractor, sump, pump and pipe, never washed apart; it may feed tanks.

    What runs from the sump into a tank is seen by nobody and written down by nobody.
    """

    def __init__(self, name: str, code: str, tanks: tuple[Vessel, ...] = ()) -> None:
        super().__init__(name, code)
        self.tanks = tanks
        self.uncapper = Spot()
        self.extractor = Spot()
        self.barrel: Honey = {}

    def load(self, honey: Mapping[str, float]) -> None:
        """Supers are uncapped and spun; their honey is in the sump, their cappings in a barrel."""
        self.uncapper.pour(honey)
        cappings = self.uncapper.draw(weight(honey) * CAPPINGS)
        self.barrel = mixed([self.barrel, cappings])
        self.extractor.pour(self.uncapper.drain())
        self.body.pour(self.extractor.drain())

    def pump(self, tank: Vessel) -> None:
        """All of the sump goes over into a tank, through the pipe."""
        tank.pour(self.draw(self.total_g))

    def take_barrel(self) -> Honey:
        """The cappings so far, weighed and put aside; an empty barrel takes their place."""
        barrel, self.barrel = self.barrel, {}
        return barrel

    def wash(self) -> None:
        """The whole line is washed; cappings in the barrel stay there."""
        super().wash()
        self.uncapper.wash()
        self.extractor.wash()


@dataclass(eq=False)
class Content:
    """What one lot code stands for in the world: honey from these sources, in a drum or sample.

    `code` is what is written on its label, as soon as the program has given one.
    """

    sources: frozenset[str]
    code: str = ""


@dataclass(eq=False)
class Drum:
    """A drum: a registered container that is used again, or a one-way one without a code."""

    container: str = ""
    spot: Spot = field(default_factory=Spot)
    content: Content | None = None
    bunged: bool = False
    washed: bool = True  # since the last honey
    label: str = ""  # the last code written on it
    gone: bool = False

    @property
    def total_g(self) -> float:
        """Grams that can be poured out."""
        return self.spot.total_g

    def fill(self, honey: Mapping[str, float], *, bung: bool) -> Content:
        """Honey comes in on top of what is there; from now on it is another content."""
        if self.total_g < 1:
            self.label = ""  # the old one is taken off
        self.spot.pour(honey)
        self.content = Content(self.spot.sources)
        self.bunged, self.washed = bung, False
        return self.content

    def code_on(self) -> Callable[[], str]:
        """What its label says: its lot's code, or the one before, until that is known."""
        content, before = self.content, self.label

        def code() -> str:
            now = self.label if self.content is content else ""
            return (content.code if content else "") or before or now

        return code

    def wash(self) -> None:
        """The empty drum is washed."""
        self.spot.wash()
        self.washed = True


@dataclass(eq=False)
class Stack:
    """Supers of one yard on a pallet."""

    yard: str
    count: int
    each_g: float


@dataclass(eq=False)
class Pallet:
    """Stacks of supers under one tag."""

    stacks: list[Stack]
    tag: str = ""
    pulls: dict[str, str] = field(default_factory=dict)  # lot code by yard
    claimed: dict[str, str] = field(default_factory=dict)  # yard written down, where it was wrong

    @property
    def count(self) -> int:
        """Supers left."""
        return sum(stack.count for stack in self.stacks)

    def take(self, yard: str, count: int) -> Honey:
        """So many supers of a yard are carried to the line."""
        honey: Honey = {}
        for stack in self.stacks:
            if stack.yard == yard:
                taken = min(count, stack.count)
                stack.count -= taken
                count -= taken
                honey = mixed([honey, {yard: taken * stack.each_g}])
        self.stacks = [stack for stack in self.stacks if stack.count]
        return honey


@dataclass(eq=False)
class Stretch:
    """Jars filled one after another from the same honey: first and last serial."""

    first: int
    last: int
    sources: frozenset[str]


@dataclass(eq=False)
class Bottling:
    """Jars running off a filler; the feed is a vessel, or a drum set on the filler's own head."""

    feed: Vessel | Drum
    head: Spot
    jar_g: int
    stretches: list[Stretch] = field(default_factory=list)
    code: str = ""
    jars: int = 0
    closed: bool = False
    left: int = 0  # jars still in the house

    def run(self, jars: int) -> int:
        """Fill jars, as many as the feed has honey for; how many there were."""
        source = self.feed if isinstance(self.feed, Vessel) else self.feed.spot
        jars = min(jars, int(source.total_g // self.jar_g))
        if jars <= 0:
            return 0
        self.head.pour(source.draw(jars * self.jar_g))
        sources = self.head.sources
        self.head.drain()
        self.stretches.append(Stretch(self.jars + 1, self.jars + jars, sources))
        self.jars += jars
        self.left += jars
        return jars

    @property
    def sources(self) -> frozenset[str]:
        """Whatever is in any of its jars."""
        return frozenset(one for stretch in self.stretches for one in stretch.sources)
