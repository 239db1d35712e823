"""How often labels are read back, spoiled or not: `python -m tests.support.reading` for the table.

Of what is read only the symbology that was printed counts, and only a text that passes its own
check; anything else is a false read.
"""

import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from biip import parse
from stdnum import ean, gs1_128
from stdnum.exceptions import ValidationError

from honeyledger.documents import labels
from honeyledger.documents.stock import Stock, plain_printer
from honeyledger.domain.codes import parse_code
from honeyledger.domain.gs1 import SEPARATOR, read_elements
from honeyledger.domain.refusals import Refusal
from honeyledger.services.label_forms import DRUM_STICKER, JAR_BACK, LID_SEAL, in_form
from honeyledger.services.retail_codes import RetailCode
from tests.documents.test_labels import PRINTS
from tests.documents.test_plain_tag import TAGS
from tests.support import printing
from tests.support.print_faults import BEYOND, FAULTS, Found, read_as_seen, symbol_pictures


def _in_form(row: Any, kind: str) -> Any:
    (formed,) = in_form([row], kind)
    return formed


READ: Mapping[str, tuple[Callable[..., bytes], Any]] = {
    **PRINTS,
    **TAGS,
    DRUM_STICKER: (labels.drum_stickers, _in_form(printing.drum_label(), DRUM_STICKER)),
    JAR_BACK: (labels.jar_backs, _in_form(printing.jar_label(), JAR_BACK)),
    LID_SEAL: (labels.lid_seals, _in_form(printing.jar_label(), LID_SEAL)),
    labels.RETAIL_CODE: (labels.retail_codes, RetailCode("Clover", 500, "09521234543213")),
}
Print = tuple[Callable[..., bytes], Any, Stock]
DOTS = (203, 300, 600)
KINDS = {"]Q1": "QR", "]d2": "GS1 DataMatrix", "]C1": "GS1-128", "]E0": "EAN-13", "]E4": "EAN-8"}


@dataclass
class Rates:
    """Reads and tries by fault, dots an inch and symbology; what was read that is not there."""

    read: Counter[tuple[str, int, str]]
    tried: Counter[tuple[str, int, str]]
    false: list[Found]


def passes(found: Found) -> bool:
    """Whether a text passes its check, as others parse it.

    GS1 content is parsed by biip, its numbers checked by python-stdnum; a code of ours has its
    check character (ISO/IEC 7064), which is checked against python-stdnum where codes are tested.
    """
    if found.identifier in ("]E0", "]E4"):
        return bool(ean.is_valid(found.text))
    if found.identifier in ("]C1", "]d2"):
        return _is_gs1(found)
    try:
        return found.identifier == "]Q1" and bool(parse_code(found.text))
    except Refusal:
        return False


def _is_gs1(found: Found) -> bool:
    message = parse(found.identifier + found.data).gs1_message
    if message is None:
        return False
    parsed = {one.ai.ai: one.value for one in message.element_strings}
    # The program reads the same out of it, and so does a third parser.
    try:
        ours = read_elements(found.identifier + found.data)
        third = gs1_128.info(found.data, separator=SEPARATOR)
    except (Refusal, ValidationError):
        return False
    if parsed != ours or parsed.keys() != third.keys():
        return False
    numbers = [value for ai, value in parsed.items() if ai in ("00", "01", "02")]
    return all(ean.calc_check_digit(number[:-1]) == number[-1] for number in numbers)


def symbols_of(row: Any) -> list[Found]:
    """What stands on a row's label, in the order its pictures come."""
    if isinstance(row, RetailCode):
        return [Found("]E0", row.gtin[1:])]
    symbols = [Found("]Q1", row.uri if getattr(row, "uri", "") else row.code)]
    elements: Mapping[str, str] = getattr(row, "elements", {})
    if elements:
        symbols.append(Found("]d2", "".join(f"({ai}){value}" for ai, value in elements.items())))
    if sscc := getattr(row, "sscc", ""):
        symbols.append(Found("]C1", f"(00){sscc}"))
    return symbols


def all_prints(kinds: Iterable[str] = tuple(READ)) -> Iterator[Print]:
    """Every kind of label on every shipped stock that carries it."""
    for kind in kinds:
        for stock in printing.stocks().fitting(kind):
            yield (*READ[kind], stock)


def read_rates(
    prints: Iterable[Print],
    dots: Iterable[int] = DOTS,
    faults: Mapping[str, Any] = FAULTS,
    *,
    closing: bool = False,
) -> Rates:
    """Print, spoil and read every label."""
    rates = Rates(Counter(), Counter(), [])
    for draw, row, stock in prints:
        for dots_per_inch in dots:
            printer = plain_printer(stock, dots_per_inch)
            pdf = draw([row], stock, printer, printing.typefaces())
            pictures = symbol_pictures(pdf, stock, dots_per_inch)
            for wanted, picture in zip(symbols_of(row), pictures, strict=True):
                for name, spoil in faults.items():
                    spoiled = spoil(picture, dots_per_inch)
                    found = read_as_seen(spoiled, dots_per_inch, closing=closing)
                    key = name, dots_per_inch, wanted.identifier
                    rates.tried[key] += 1
                    rates.read[key] += wanted in {one for one in found if passes(one)}
                    rates.false += [one for one in found - {wanted} if passes(one)]
    return rates


def table(rates: Rates) -> Iterator[str]:
    """The rates as rows of markdown: a fault a row, dots an inch in columns."""
    dots = sorted({key[1] for key in rates.tried})
    yield f"| symbol, fault | {' | '.join(f'{one} dots an inch' for one in dots)} | all |"
    yield f"| --- |{' --- |' * (len(dots) + 1)}"
    for identifier in dict.fromkeys(key[2] for key in rates.tried):
        for fault in dict.fromkeys(key[0] for key in rates.tried):
            keys = [(fault, one, identifier) for one in dots]
            shares = " | ".join(f"{rates.read[key]} of {rates.tried[key]}" for key in keys)
            read, tried = (sum(one[key] for key in keys) for one in (rates.read, rates.tried))
            yield f"| {KINDS[identifier]}, {fault} | {shares} | {read} of {tried} |"


def main() -> None:
    """Read every kind of label on every shipped stock, and write the table."""
    rates = read_rates(all_prints(), faults={**FAULTS, **BEYOND})
    closed = read_rates(all_prints(), faults=BEYOND, closing=True)
    lines = [*table(rates), f"{len(rates.false)} false reads.", "With gaps closed:"]
    lines += [*table(closed), f"{len(closed.false)} false reads."]
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
