"""What stands on a drum's label."""

from typing import Any

from honeyledger.documents.labels import drum_labels
from honeyledger.documents.stock import plain_printer
from honeyledger.domain.units import MassUnit
from tests.support import printing


def _print(unit: MassUnit = "kg", stock: str = "roll-100x150", **changes: Any) -> bytes:
    sheet = printing.stocks().named(stock)
    row = printing.drum_label(**changes)
    return drum_labels([row], sheet, plain_printer(sheet), printing.typefaces(), unit=unit)


def test_a_label_says_what_is_in_the_drum() -> None:
    text = printing.text_of(_print())
    for said in (
        printing.HOUSE,
        "Season 2026",
        "Honey for further processing",
        "Net 293.2 kg",
        "Gross 311.4 kg",
        "Tare 18.2 kg",
        "Container",
        f"Drum {printing.code('E', 31)}",
        "2026-07-17",
        printing.code("R", 9),
        "17.4 %",
        "white, 34 mm Pfund",
        "Clover, basswood",
        "Canada",
        "Hold",
        "Why",
        "Who, when",
        "Seal",
    ):
        assert said in text, said


def test_weights_are_in_the_houses_unit() -> None:
    assert "646.4 lb" in printing.text_of(_print("lb"))


def test_a_number_printed_ahead_leaves_lines_for_the_rest() -> None:
    bare = {"net_g": None, "gross_g": None, "tare_g": None, "filled": None, "season": ""}
    empty = {"container": "", "run": "", "forage": "", "origin": "", "moisture_hundredths": None}
    text = printing.text_of(_print(**bare, **empty, pfund_tenths=None, colour=""))
    for said in ("Net", "Gross", "Tare", "Container", "Filled", "Run", "Moisture", "Seal", "Hold"):
        assert said in text, said
    for unsaid in ("Colour", "Forage", "Origin", "Season", "kg", "%", "None"):
        assert unsaid not in text, unsaid


def test_a_colour_without_a_class_is_its_reading() -> None:
    assert "Colour 34 mm Pfund" in printing.text_of(_print(colour=""))


def test_the_hold_box_is_empty_and_large_enough_to_tick() -> None:
    image = printing.raster(_print(), 254)  # ten dots a millimetre
    left, top = 55, 1500 - 55 - 145 + 40
    inside = image.crop((left + 8, top + 8, left + 92, top + 92))
    assert inside.getextrema() == (255, 255)
    edge = image.crop((left, top, left + 100, top + 5))
    assert edge.getextrema() == (0, 0)


def test_what_is_held_has_its_box_crossed_and_says_why() -> None:
    pdf = _print(held="Mill Lane: strips")
    assert "Mill Lane: strips" in printing.text_of(pdf)
    image = printing.raster(pdf, 254)
    left, top = 55, 1500 - 55 - 145 + 40
    assert image.getpixel((left + 50, top + 50)) == 0, "the middle of the cross"
    corner = image.crop((left + 8, top + 8, left + 14, top + 14))
    assert corner.getextrema() == (255, 255), "a cross in the box, no box filled"
