"""A lot's card as an answer: what it is, where, from whom, and what happened to it."""

import click

from honeyledger.commandline import output
from honeyledger.commandline.card_quality import (
    CardQuality,
    card_quality,
    quality_json,
    quality_lines,
)
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.units import (
    format_colour,
    format_moisture,
    format_shares,
    format_temperature,
)
from honeyledger.services.cards import LotCard, gap_words, lot_card
from honeyledger.services.deed_words import count_of

# What is counted in something else than supers, by what it is called.
THINGS = {"jar lot": "jars", "cut comb": "pieces", "chunk honey": "jars"}


@click.command(cls=Asking)
@click.argument("code")
@click.pass_obj
def lot(desk: Desk, code: str) -> None:
    """Show a lot's card.

    \b
    Example: honeyledger lot D26-0011-4
    """
    unit = desk.unit
    now_ms = desk.house.clock()
    card, quality = desk.ask(
        lambda view: (lot_card(view, code, unit), card_quality(view, code, now_ms))
    )
    answer = _card_json(card) | {"quality": quality_json(quality)}
    desk.answer(answer, lambda: _show(desk, card, quality))


def _card_json(card: LotCard) -> dict[str, object]:
    return {
        "code": card.code,
        "kind": card.kind,
        "made_g": card.made_g,
        "made": format_iso(card.made),
        "on_hand_g": card.on_hand_g,
        "places": [
            {"place": row.place, "where": row.where, "grams": row.grams, "pieces": row.pieces}
            for row in card.standing
        ],
        "moisture": card.moisture,
        "colour": card.colour,
        "temperature": card.temperature,
        "holds": list(card.holds),
        "pending": card.pending,
        "label_void": card.label_void,
        "heated": list(card.heated),
        "facts": dict(card.facts),
        "yards": [
            {
                "kind": row.kind,
                "code": row.code,
                "name": row.name,
                "share": row.share,
                "how": list(row.how),
            }
            for row in card.yards
        ],
        "reach_complete": card.reach_complete,
        "in_reach_only": [
            {"code": row.code, "entry": row.entry, "line": row.line, "late": row.late}
            for row in card.in_reach_only
        ],
        "history": [
            {
                "entry": told.entry,
                "happened": format_iso(told.happened),
                "kind": told.kind,
                "sentence": told.sentence,
                "by": told.by,
                "reversed_by": told.reversed_by,
            }
            for told in card.history
        ],
    }


def _show(desk: Desk, card: LotCard, quality: CardQuality) -> None:
    output.say(
        f"{card.code}, {card.noun}, {desk.shown(card.made_g)} made {format_moment(card.made)}"
    )
    for row in card.standing:
        if row.is_gap:
            output.say(f"  by the scale: {gap_words(row.grams, desk.unit)}")
            continue
        things = THINGS.get(card.noun, "supers")
        pieces = f", {count_of(row.pieces, things)}" if row.pieces else ""
        output.say(f"  {desk.shown(row.grams)} at {row.where}{pieces}")
    for name, value in (*_readings(card), *card.facts):
        output.say(f"  {name}: {value}")
    if lines := quality_lines(quality):
        output.say("  quality")
        for line in lines:
            output.say(f"    {line}")
    if card.pending:
        output.say("  Its weight is to follow.")
    if card.label_void:
        output.say("  Its label is void.")
    if card.heated:
        output.say(
            f"  heated: {'itself' if card.heated == (card.code,) else ' '.join(card.heated)}"
        )
    for hold in card.holds:
        output.say(f"  On hold through {hold}")
    shares = format_shares([row.share for row in card.yards])
    for share, yard in zip(shares, card.yards, strict=True):
        amended = ", amended" if "amended" in yard.how else ""
        output.say(f"  {share} {yard.name} ({yard.code}){amended}")
    if card.in_reach_only:
        output.say()
        output.say("In its reach at 0 g (narrow takes one out, by entry and line)")
        output.table(
            (
                Column("code"),
                Column("entry", right=True),
                Column("line", right=True),
                Column(""),
            ),
            [
                [row.code, str(row.entry), str(row.line), "late" if row.late else ""]
                for row in card.in_reach_only
            ],
        )
    output.say()
    for told in card.history:
        by = f" {told.by}." if told.by else ""
        undone = f" Reversed by entry {told.reversed_by}." if told.reversed_by else ""
        when = format_moment(told.happened)
        output.say(f"{when}  {told.sentence}{by}{undone} [entry {told.entry}]")


def _readings(card: LotCard) -> list[tuple[str, str]]:
    rows = []
    if card.moisture is not None:
        rows.append(("moisture", format_moisture(card.moisture)))
    if card.colour is not None:
        rows.append(("colour", format_colour(card.colour)))
    if card.temperature is not None:
        rows.append(("temperature", format_temperature(card.temperature)))
    return rows
