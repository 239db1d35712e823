"""Labels are read by a reader that is not ours, as printers spoil them and scanners see them."""

import pytest

from honeyledger.documents import labels
from honeyledger.domain.gs1 import element_string
from tests.support import printing
from tests.support.print_faults import BEYOND, FAULTS, Found
from tests.support.reading import DOTS, READ, Print, Rates, all_prints, passes, read_rates


def _missed(rates: Rates) -> dict[tuple[str, int, str], tuple[int, int]]:
    return {
        key: (rates.read[key], tried)
        for key, tried in rates.tried.items()
        if rates.read[key] < tried
    }


@pytest.mark.parametrize("kind", READ)
def test_every_kind_of_label_is_read_spoiled_or_not(kind: str) -> None:
    """Of each kind the smallest stock, where modules are smallest, at the coarsest printer."""
    smallest: Print = min(all_prints([kind]), key=lambda one: one[2].width_mm * one[2].height_mm)
    rates = read_rates([smallest], dots=DOTS[:1])
    assert sum(rates.tried.values()) >= len(FAULTS)
    assert (_missed(rates), rates.false) == ({}, [])


@pytest.mark.full
@pytest.mark.parametrize("dots_per_inch", DOTS)
def test_every_label_on_every_stock_is_read_spoiled_or_not(dots_per_inch: int) -> None:
    rates = read_rates(all_prints(), dots=(dots_per_inch,))
    assert len({key[0] for key in rates.tried}) == len(FAULTS) >= 6
    assert (_missed(rates), rates.false) == ({}, [])


@pytest.mark.parametrize("kind", [labels.DRUM_LABEL, labels.JAR_LABEL])
def test_what_spoils_a_code_beyond_reading_is_as_it_is_told(kind: str) -> None:
    """A scratch through a pattern by which a code is found, and what an imager makes up for."""
    smallest = min(all_prints([kind]), key=lambda one: one[2].width_mm * one[2].height_mm)
    plain = read_rates([smallest], dots=DOTS[:1], faults=BEYOND)
    closed = read_rates([smallest], dots=DOTS[:1], faults=BEYOND, closing=True)
    scratches = {name for name in BEYOND if name.endswith("scratch")}
    lost = {key[0] for key in plain.tried if not plain.read[key]}
    assert scratches <= lost <= {*scratches, "gloss band"}
    assert not scratches & {key[0] for key in closed.tried if not closed.read[key]}
    assert plain.false == closed.false == [], "what cannot be read is never read as something else"


def test_only_what_passes_its_check_counts_as_read() -> None:
    pack = printing.pack_label()
    data = element_string(pack.elements)
    assert passes(Found("]d2", "", data))
    assert passes(Found("]C1", "", f"00{pack.sscc}"))
    assert passes(Found("]E0", "9521234543213"))
    assert passes(Found("]Q1", pack.code))
    for found in (
        Found("]d2", "", data.replace(pack.sscc, pack.sscc[:-1] + "9")),
        Found("]d2", "", "99"),
        Found("]C0", "", f"00{pack.sscc}"),
        Found("]E0", "9521234543214"),
        Found("]Q1", pack.code[:-1] + "0"),
        Found("]Q0", pack.code),
        Found("]Q1", "252"),
    ):
        assert not passes(found), found
    assert {labels.PACK_LABEL, labels.RETAIL_CODE} <= set(READ), (
        "kinds with other symbols are read, too"
    )
