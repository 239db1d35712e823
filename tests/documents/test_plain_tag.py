"""Tags of vessels, equipment and sample pots on every stock they go on."""

from collections.abc import Callable

import pytest

from honeyledger.documents import labels
from honeyledger.documents.stock import LEAST_MM, Stock, plain_printer, stock_of
from honeyledger.services.label_forms import EquipmentTag, PlainTag, SampleLabel, VesselLabel
from tests.support import printing

TAGS: dict[str, tuple[Callable[..., bytes], PlainTag]] = {
    labels.VESSEL_LABEL: (
        labels.vessel_labels,
        VesselLabel(
            printing.code("E", 4), "tank", "Tank 2", printing.HOUSE, (("Holds", "1,200 kg"),)
        ),
    ),
    labels.EQUIPMENT_TAG: (
        labels.equipment_tags,
        EquipmentTag(
            printing.code("E", 9), "scale", "Drum scale", printing.HOUSE, (("Number", "K-77"),)
        ),
    ),
    labels.SAMPLE_LABEL: (
        labels.sample_labels,
        SampleLabel(
            printing.code("X", 9),
            "sample",
            f"of {printing.code('D', 611)}",
            printing.HOUSE,
            (("Taken", "2026-07-17"), ("For", "before shipment"), ("Kept at", "")),
        ),
    ),
}
LONG = "Upper Wolverhampstead-on-the-Marsh behind the old railway station, second gate on the left"


def _print(kind: str, stock: Stock, **changes: str) -> bytes:
    draw, tag = TAGS[kind]
    facts = {"name": tag.name, **changes}
    row = type(tag)(tag.code, tag.sort, facts["name"], tag.house, tag.facts)
    return draw([row], stock, plain_printer(stock, 203), printing.typefaces())


@pytest.mark.parametrize(
    ("kind", "stock"),
    [(kind, stock.name) for kind in TAGS for stock in printing.stocks().fitting(kind)],
)
def test_each_is_read_and_says_what_it_is_on_every_stock(kind: str, stock: str) -> None:
    pdf = _print(kind, printing.stocks().named(stock))
    tag = TAGS[kind][1]
    assert printing.read(printing.raster(pdf, 203)) == [tag.code]
    text = printing.text_of(pdf).replace("- ", "-")
    for said in (tag.code, tag.name, *(" ".join(fact).strip() for fact in tag.facts)):
        assert said in text, said


@pytest.mark.parametrize("kind", TAGS)
def test_the_least_size_has_room_and_a_long_name_loses_its_middle(kind: str) -> None:
    wide, high = LEAST_MM[kind]
    stock = stock_of("Own", {"paper": "roll", "width_um": wide * 1000, "height_um": high * 1000})
    text = printing.text_of(_print(kind, stock, name=LONG))
    assert "…" in text
    pdf = _print(kind, stock, name=LONG)
    right, bottom = wide * 72 / 25.4, high * 72 / 25.4
    for box in printing.text_boxes(pdf):
        assert 0 < box[0] < box[2] < right
        assert 0 < box[1] < box[3] < bottom
