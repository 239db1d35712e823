"""Front, back and seal of a jar: together they say what the whole label says."""

from collections.abc import Callable

import pytest

from honeyledger.documents import labels
from honeyledger.documents.jar_label import LEAST_PT
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.refusals import Refusal
from honeyledger.services.label_forms import JAR_BACK, JAR_FRONT, LID_SEAL, in_form
from honeyledger.services.papers import INFANT_CAUTION
from tests.documents.test_jar_label import MARKETS, _sizes
from tests.support import printing

DRAWS: dict[str, Callable[..., bytes]] = {
    JAR_FRONT: labels.jar_fronts,
    JAR_BACK: labels.jar_backs,
    LID_SEAL: labels.lid_seals,
}
ALL = [(kind, stock.name) for kind in DRAWS for stock in printing.stocks().fitting(kind)]


def _print(kind: str, stock: str, **changes: object) -> bytes:
    sheet = printing.stocks().named(stock)
    rows = in_form([printing.jar_label(**changes)], kind)
    return DRAWS[kind](rows, sheet, plain_printer(sheet, 300), printing.typefaces())


@pytest.mark.parametrize(("kind", "stock"), ALL)
def test_each_says_its_part_and_stays_on_its_label(kind: str, stock: str) -> None:
    more = {"grading": "No. 1 · White", "storage": "Keep dry.", "us_dual": True}
    pdf = _print(kind, stock, **more)
    jar, text = printing.jar_label(), printing.text_of(pdf).replace("- ", "-")
    says = {
        JAR_FRONT: (jar.product, "500 g", "17.6 oz", "No. 1 · White", jar.origin),
        JAR_BACK: (
            *(jar.producer, jar.place, f"L {jar.lot}", jar.best_before, "Keep dry."),
            INFANT_CAUTION,
        ),
        LID_SEAL: ("Sealed", "00382-F", jar.producer),
    }[kind]
    for said in says:
        assert said in text, said
    read = [] if kind == JAR_FRONT else [jar.code]
    assert printing.read(printing.raster(pdf, 300)) == read
    sheet = printing.stocks().named(stock)
    right = (sheet.left_mm + sheet.width_mm) * 72 / 25.4
    for box in printing.text_boxes(pdf):
        assert sheet.left_mm * 72 / 25.4 < box[0] < box[2] < right - 2


def test_a_back_without_the_caution_is_refused() -> None:
    with pytest.raises(Refusal, match="carries the caution"):
        _print(JAR_BACK, "roll-100x60", caution=" ")


def test_type_is_as_high_as_on_the_whole_label() -> None:
    # C.R.C., c. 417, section 14(2): 6.4 mm above 258 cm2.
    front = _sizes(
        _print(JAR_FRONT, "roll-100x60", heights=MARKETS["canada"].heights, panel_mm2=30_000.0)
    )
    assert front["500 g"] * 0.698 * 25.4 / 72 >= 6.4 - 0.01
    back = _sizes(_print(JAR_BACK, "roll-100x60", heights=MARKETS["eu"].heights))
    assert min(back.values()) >= LEAST_PT - 0.01
