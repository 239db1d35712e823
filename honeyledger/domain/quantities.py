"""What is measured of honey: each quantity with its unit, its places, and what can be right.

Names are those that rules of markets use. Figures are kept as whole parts of so many places; what
a laboratory reported as "<", ">" or not detected is kept as it was said.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.results import Kind, Result, parse_result
from honeyledger.domain.units import parse_count

NO_SUCH_QUANTITY = Sentence(
    "no-such-quantity", "{name} is nothing that is measured of honey: choose of {names}."
)
RESULT_RANGE = Sentence(
    "result-out-of-range",
    "{result} cannot be right for {name}: it lies between {lowest} and {highest}. Look at the "
    "report again.",
)
FIGURE_WANTED = Sentence(
    "figure-wanted", "{name} is kept as a figure: type what was read, without < or >."
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """Something that is measured.

    Args:
        name: as rules, columns of tables and commands call it.
        title: as people say it.
        places: how many decimals a whole part has.
        lowest, highest: what can be right, in parts: common practice, no source.
        repeats_to: how far two readings of one honey may be apart, in parts: common practice, no
            source.
    """

    name: str
    title: str
    unit: str
    places: int
    lowest: int
    highest: int
    repeats_to: int

    def result(self, parts: int) -> Result:
        """A figure of so many parts."""
        return Result(Kind.FIGURE, Decimal(parts).scaleb(-self.places))

    def parts(self, result: Result) -> int | None:
        """A figure in parts, the nearest; None of what is below or above something."""
        if result.kind is not Kind.FIGURE or result.figure is None:
            return None
        return int(result.figure.scaleb(self.places).quantize(Decimal(1)))

    def said(self, parts: int) -> str:
        """A figure with its unit, in no more places than it needs; in hundredths one at least."""
        least = 1 if self.places > 1 else 0
        places = max(least, self.places - _zeros(parts, self.places))
        return f"{Decimal(parts).scaleb(-self.places):.{places}f} {self.unit}".rstrip()

    def words(self, result: Result) -> str:
        """A result with its unit, as it was reported."""
        if result.kind is Kind.NOT_DETECTED and result.figure is None:
            return phrase("not detected")
        text = f"{result.figure:f}"
        if result.kind is Kind.NOT_DETECTED:
            return phrase("not detected (<{figure})", figure=f"{text} {self.unit}".rstrip())
        return f"{result.kind.value}{text} {self.unit}".rstrip()


def _zeros(parts: int, places: int) -> int:
    """How many of its places are 0 at the end."""
    return next((at for at in range(places) if parts // 10**at % 10), places)


_LIST = (
    Quantity("moisture", phrase("moisture"), "%", 2, 1_000, 3_000, 20),
    Quantity("colour", phrase("colour"), "mm", 1, 0, 1_500, 10),
    Quantity("temperature", phrase("temperature"), "°C", 1, -200, 1_000, 5),
    Quantity("optical density", phrase("optical density"), "", 4, 0, 100_000, 50),
    Quantity("conductivity", phrase("conductivity"), "mS/cm", 3, 0, 5_000, 20),
    Quantity("hmf", phrase("HMF"), "mg/kg", 1, 0, 20_000, 20),
    Quantity("diastase", phrase("diastase"), "DN", 1, 0, 1_000, 10),
    Quantity("free acid", phrase("free acid"), "meq/kg", 1, 0, 2_000, 20),
    Quantity("fructose and glucose", phrase("fructose and glucose"), "g/100 g", 1, 200, 1_000, 20),
    Quantity("sucrose", phrase("sucrose"), "g/100 g", 1, 0, 600, 5),
    Quantity("insolubles", phrase("insolubles"), "g/100 g", 2, 0, 500, 3),
    Quantity("yeast", phrase("yeast"), "/g", 0, 0, 100_000_000, 0),
)
QUANTITIES: Mapping[str, Quantity] = {one.name: one for one in _LIST}
IN_PARTS = ("moisture", "colour", "temperature")
"""Those a lot has one latest figure of, which the whole house goes by: figures only."""
REPORTED = tuple(name for name in QUANTITIES if name not in IN_PARTS)
"""Those that are kept as they were reported."""


def quantity(name: str, *, field: str = "what") -> Quantity:
    """The quantity of a name.

    Raises:
        Refusal: there is none.
    """
    found = QUANTITIES.get(" ".join(name.split()).casefold())
    if found is None:
        raise Refusal(NO_SUCH_QUANTITY, field=field, name=name or "Nothing", names=listing())
    return found


def listing() -> str:
    """All names, as a refusal gives them."""
    return ", ".join(QUANTITIES)


def reported(of: Quantity, text: str, *, field: str = "result") -> Result:
    """Read a result of a quantity as a laboratory writes it, its unit behind it or not.

    Raises:
        Refusal: it is no result, or cannot be right.
    """
    plain = text.strip()
    if of.unit and plain.casefold().endswith(of.unit.casefold()):
        plain = plain[: -len(of.unit)].rstrip()
    figure = plain.lstrip("<> ")
    if not of.places and figure[:1].isdigit():
        counted = parse_count(figure, "a count", field=field)
        plain = f"{plain[: len(plain) - len(figure)]}{counted}"
    result = parse_result(plain, field=field)
    lowest, highest = (Decimal(one).scaleb(-of.places) for one in (of.lowest, of.highest))
    if result.figure is not None and not lowest <= result.figure <= highest:
        raise Refusal(
            RESULT_RANGE,
            field=field,
            result=of.words(result),
            name=of.title,
            lowest=f"{lowest:f}",
            highest=f"{highest:f} {of.unit}".rstrip(),
        )
    return result


def figure_of(of: Quantity, text: str, *, field: str = "result") -> int:
    """Read a figure of a quantity into parts.

    Raises:
        Refusal: it is no figure, or cannot be right.
    """
    parts = of.parts(reported(of, text, field=field))
    if parts is None:
        raise Refusal(FIGURE_WANTED, field=field, name=capital(of.title))
    return parts


def capital(title: str) -> str:
    """A title as it begins a sentence."""
    return f"{title[:1].upper()}{title[1:]}"
