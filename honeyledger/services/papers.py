"""What stands on each printed paper: frozen rows of plain values, and the net content in words.

Rows carry whole numbers (grams, hundredths of a percent, tenths of a Pfund millimetre) and dates;
how they are set is for the printing side. An absent value is None or an empty string.
"""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from honeyledger.domain.label_content import HeightRule

# Health Canada and food agencies elsewhere: honey is not for infants under one year of age, and
# heating does not help. A house may put it in its own language, never leave it out.
INFANT_CAUTION = "Not for infants under one year of age."

# NIST Handbook 44, Appendix C: 1 oz = 28.349523125 g exactly; in billionths of a gram.
_OUNCE = 28_349_523_125
_BILLION = 1_000_000_000


@dataclass(frozen=True, slots=True)
class PulledLine:
    """One pull on a pallet tag.

    Args:
        yard: the yard's code.
        name: the yard's name.
        pulled: the day the supers were pulled.
        supers: how many of them stand on this pallet.
    """

    yard: str
    name: str
    pulled: date
    supers: int


@dataclass(frozen=True, slots=True)
class PalletTag:
    """The tag stapled to a pallet of supers.

    Args:
        code: the pallet tag's own code.
        house: the honey house's name.
        received: the day it came to the dock.
        pulls: its pulls, as they shall be listed.
        condition: sealed, mixed or green, in the house's words.
        gross_g: weight of pallet, supers and honey, grams.
        moisture_hundredths: moisture if read, hundredths of a percent.
        dry_first: whether it must be dried before it is extracted.
        head: the ledger's head when it was printed, such as "1317 C002F800AB12": kept on paper,
            it finds a tail cut off later.
        uri: web address to carry in the QR instead of the plain code.
        again: which print of it this is, after the first.
    """

    label: ClassVar[str] = "pallet tag"
    code: str
    house: str
    received: date
    pulls: tuple[PulledLine, ...]
    condition: str = ""
    gross_g: int | None = None
    moisture_hundredths: int | None = None
    dry_first: bool = False
    head: str = ""
    uri: str = ""
    again: int = 0

    @property
    def supers(self) -> int:
        """How many supers stand on the pallet."""
        return sum(pull.supers for pull in self.pulls)


@dataclass(frozen=True, slots=True)
class DrumLabel:
    """The label of a drum, tote or pail; weights not yet known leave lines to write on.

    Args:
        code: the code of the drum as filled.
        house: the honey house's name.
        heading: what the content is, in the house's words, such as "Honey for further processing".
        container: kind and number of the container, such as "Drum E26-0031-T".
        net_g: honey in it, grams.
        gross_g: honey and container, grams.
        tare_g: the empty container, grams.
        filled: the day it was filled.
        run: code of the run.
        moisture_hundredths: moisture if read, hundredths of a percent.
        pfund_tenths: colour if read, tenths of a Pfund millimetre.
        colour: the name of the colour class, if read.
        forage: what the bees worked.
        season: the crop year.
        origin: country or region of harvest.
        head: the ledger's head when it was printed, as on a pallet tag.
        uri: web address to carry in the QR instead of the plain code.
        again: which print of it this is, after the first.
        held: what holds it, and why; "" where nothing does.
    """

    label: ClassVar[str] = "drum label"
    code: str
    house: str
    heading: str
    container: str = ""
    net_g: int | None = None
    gross_g: int | None = None
    tare_g: int | None = None
    filled: date | None = None
    run: str = ""
    moisture_hundredths: int | None = None
    pfund_tenths: int | None = None
    colour: str = ""
    forage: str = ""
    season: str = ""
    origin: str = ""
    head: str = ""
    uri: str = ""
    again: int = 0
    held: str = ""


@dataclass(frozen=True, slots=True)
class JarLabel:
    """The label of one jar.

    Args:
        code: the jar's code with its serial.
        lot: the bottling's code, printed with the lot mark L (Directive 2011/91/EU, article 3).
        product: the product's name.
        net_g: declared net content, grams.
        producer: who answers for it.
        place: the producer's place or address.
        best_before: the whole line, such as "Best before end 2028"; empty where none is wanted.
        origin: the origin line, such as "Origin: 100 % Canada".
        us_dual: whether ounces and pounds stand beside the metric content.
        caution: the caution about infants; it can be worded, not left out.
        us_first: whether ounces and pounds stand before the metric content.
        grading: grade, colour class and style, where it has them.
        storage: how to store it.
        texts: what the house wants printed besides.
        heights: the least heights of type its markets ask for.
        panel_mm2: the main panel's area; 0 where nobody measured it: the label's is taken.
        uri: web address to carry in the QR instead of the plain code.
    """

    label: ClassVar[str] = "jar label"
    code: str
    lot: str
    product: str
    net_g: int
    producer: str
    place: str
    best_before: str = ""
    origin: str = ""
    us_dual: bool = False
    caution: str = INFANT_CAUTION
    uri: str = ""
    us_first: bool = False
    grading: str = ""
    storage: str = ""
    texts: tuple[str, ...] = ()
    heights: tuple[HeightRule, ...] = ()
    panel_mm2: float = 0.0


@dataclass(frozen=True, slots=True)
class YardSheetTag:
    """The code of a yard for its pull sheet or its gate.

    Args:
        code: the yard's code.
        name: the yard's name.
        house: the honey house's name.
        place: district, road or land description.
        uri: web address to carry in the QR instead of the plain code.
        due: what the crew has to know, such as a treatment that is not clear; "" for nothing.
        again: which print of it this is, after the first.
    """

    label: ClassVar[str] = "yard sheet code"
    code: str
    name: str
    house: str
    place: str = ""
    uri: str = ""
    due: str = ""
    again: int = 0


def metric_content(net_g: int) -> str:
    """Put a net content in grams below one kilogram and in kilograms from there on."""
    if net_g < 1000:
        return f"{net_g} g"
    return f"{_trimmed(net_g, 1000, 3)} kg"


def us_content(net_g: int) -> str:
    """Put a net content in ounces, in pounds and ounces, or in both, by its size.

    From one pound to under four both are given; from four pounds on pounds with the rest in
    ounces (21 CFR 101.7, forms from memory). Whole ounces that round to these grams are meant as
    such, so 340 g is 12 oz; all else is rounded down to a tenth, so that the label never promises
    more than the jar holds.
    """
    tenths = net_g * 10 * _BILLION // _OUNCE
    whole = (net_g * _BILLION + _OUNCE // 2) // _OUNCE
    if (whole * _OUNCE + _BILLION // 2) // _BILLION == net_g:
        tenths = whole * 10
    ounces = f"{_trimmed(tenths, 10, 1)} oz"
    pounds, rest = divmod(tenths, 160)
    in_pounds = f"{pounds} lb {_trimmed(rest, 10, 1)} oz" if rest else f"{pounds} lb"
    if not pounds:
        return ounces
    return in_pounds if pounds >= 4 else f"{ounces} ({in_pounds})"


def net_content(net_g: int, *, us_first: bool = False) -> str:
    """Put a net content as a market has it: grams, or ounces and pounds with grams behind.

    "Net Wt" before ounces, grams in brackets (21 CFR 101.7, forms at second hand).
    """
    if not us_first:
        return metric_content(net_g)
    return f"Net Wt {us_content(net_g)} ({metric_content(net_g)})".replace(") (", ", ", 1)


def _trimmed(number: int, divisor: int, places: int) -> str:
    whole, rest = divmod(number, divisor)
    return f"{whole}.{rest:0{places}}".rstrip("0").rstrip(".") if rest else str(whole)


@dataclass(frozen=True, slots=True)
class Serials:
    """Serials of a jar lot to print, first and last included; all where none are given.

    Args:
        form: as which label, such as "jar front"; "" for the whole one.
    """

    first: int = 1
    last: int = 0
    form: str = ""


ALL_JARS = Serials()


@dataclass(frozen=True, slots=True)
class Badge:
    """A person's badge: scanned, it says who works at a station.

    Args:
        code: the person's code.
        name: the person's name.
        role: what the person does here.
        house: the honey house's name.
        again: which print of it this is, after the first.
    """

    label: ClassVar[str] = "badge"
    code: str
    name: str
    house: str
    role: str = ""
    again: int = 0
