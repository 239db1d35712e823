"""Jars with a piece of comb in liquid honey, as a small form."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.domain.units import format_number, parse_count, parse_mass_g
from honeyledger.ledger.verbs.by_products import Chunk

CHUNK = "chunk"
FEEDS, COMB, CHUNK_PRODUCTS = "feeds", "K", "products"
_JARS = "a number of jars"


def _tr(text: str) -> str:
    return QCoreApplication.translate("bottling", text)


def chunk_form() -> FormSpec:
    """What was filled, with which comb, and where the liquid honey came from."""
    return FormSpec(
        CHUNK,
        _tr("Chunk"),
        _tr("Comb in liquid honey: scan the comb, then the drum or tank of the liquid."),
        _tr("They are filled"),
        (
            (
                Ask("comb", _tr("Comb: scan it"), part=3),
                Ask("pieces", _tr("Pieces put in"), Typing.COUNT, part=2),
            ),
            (Ask("source", _tr("Liquid from: scan it"), Typing.FREE, offers=FEEDS),),
            (
                Ask("product", _tr("As"), Typing.CHOICE, offers=CHUNK_PRODUCTS, part=3),
                Ask("jars", _tr("Jars filled"), Typing.COUNT, part=2),
            ),
            (Ask("liquid_g", _tr("Liquid, if it was weighed"), Typing.MASS),),
            (
                Ask(
                    "despite_hold",
                    _tr("If it is on hold: why it may go on"),
                    shown=lambda typed, _reading: bool(typed.text("comb")),
                ),
            ),
        ),
        _filled,
        lambda typed, done, _reading: _tr("{code} is filled: {n} jars with comb.").format(
            code=next((code for code in done.codes if code[:1] == COMB), ""),
            n=format_number(parse_count(typed.text("jars"), _JARS, field="jars")),
        ),
        scan="comb",
    )


def _filled(typed: FormTyped, reading: Reading) -> Sequence[Chunk]:
    liquid = typed.text("liquid_g")
    return [
        Chunk(
            typed.text("product"),
            typed.text("comb"),
            parse_count(typed.text("pieces"), "a number of pieces", field="pieces"),
            typed.text("source"),
            parse_count(typed.text("jars"), _JARS, field="jars"),
            parse_mass_g(liquid, reading.unit, field="liquid_g") if liquid else None,
            typed.text("despite_hold"),
        )
    ]
