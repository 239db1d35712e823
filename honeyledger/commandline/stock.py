"""What is on hand, and what adds up."""

from collections.abc import Sequence

import click

from honeyledger.commandline import output, run_sheet
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.ledger.lookup import read_code
from honeyledger.services.stock import (
    HouseBalance,
    LotBalance,
    Part,
    house_balance,
    lot_balance,
    stock_on_hand,
)


@click.command(cls=Asking)
@click.option(
    "--kind",
    "kinds",
    default="",
    metavar="LETTERS",
    help="Only lots of these letters, such as DJ.",
)
@click.option(
    "--place",
    "places",
    multiple=True,
    metavar="CLASS",
    help="Only at pallet, vessel, drum, barrel, filling, jars or store.",
)
@click.pass_obj
def stock(desk: Desk, kinds: str, places: Sequence[str]) -> None:
    """List what is on hand.

    \b
    Example: honeyledger stock
    """
    rows = desk.ask(lambda view: stock_on_hand(view, kinds.upper(), places))
    value = [
        {
            "code": row.code,
            "kind": row.kind,
            "place": row.place,
            "where": row.where,
            "grams": row.grams,
            "pieces": row.pieces,
            "held": row.held,
        }
        for row in rows
    ]
    desk.answer_rows(
        value,
        (
            Column("code"),
            Column("kind"),
            Column("where"),
            Column("weight", right=True),
            Column("supers or jars", right=True),
            Column(""),
        ),
        [
            [
                row.code,
                row.noun,
                row.where,
                desk.shown(row.grams),
                str(row.pieces or ""),
                "on hold" if row.held else "",
            ]
            for row in rows
        ],
        "Nothing is on hand.",
    )


@click.command("mass-balance", cls=Asking)
@click.argument("code", default="")
@click.pass_obj
def mass_balance(desk: Desk, code: str) -> None:
    """Show what went in and what came out, of a run, a lot or the house.

    With no code it is all honey since the ledger began.

    \b
    Example: honeyledger mass-balance R26-0003-8
    """
    if not code:
        house = desk.ask(house_balance)
        desk.answer(_house_json(house), lambda: _show_house(desk, house))
        return
    letter = desk.ask(lambda view: getattr(read_code(view, code, "code"), "letter", "J"))
    if letter == "R":
        run_sheet.show(desk, code)
        return
    balance = desk.ask(lambda view: lot_balance(view, code))
    value = {
        "code": balance.code,
        "kind": balance.kind,
        "made_g": balance.made_g,
        "came": [_part_json(part) for part in balance.came],
        "places": [_part_json(part) for part in balance.places],
        "later": [_part_json(part) for part in balance.later],
        "on_hand_g": balance.on_hand_g,
        "gap_g": balance.gap_g,
    }
    desk.answer(value, lambda: _show_balance(desk, balance))


def _part_json(part: Part) -> dict[str, object]:
    return {"code": part.code, "name": part.name, "grams": part.grams, "pieces": part.pieces}


def _house_json(balance: HouseBalance) -> dict[str, object]:
    return {
        "came": [_part_json(part) for part in balance.came],
        "places": [_part_json(part) for part in balance.places],
        "on_hand_g": balance.on_hand_g,
        "gap_g": balance.gap_g,
    }


def _show_house(desk: Desk, balance: HouseBalance) -> None:
    """Places that never saw a gram are left out; they are in the JSON."""
    output.say("All honey since the ledger began")
    parts = [("came from", part) for part in balance.came]
    parts += [("is at", part) for part in balance.places]
    rows = [[title, part.name, desk.shown(part.grams)] for title, part in parts if part.grams]
    rows.append(["on hand", "", desk.shown(balance.on_hand_g)])
    rows.append(["not accounted for", "", desk.shown(balance.gap_g)])
    output.table((Column(""), Column(""), Column("weight", right=True)), rows)


def _show_balance(desk: Desk, balance: LotBalance) -> None:
    output.say(f"{balance.code}, {LOT_LETTERS.get(balance.kind, 'lot')}")
    rows = []
    for title, parts in (
        ("came from", balance.came),
        ("is at", balance.places),
        ("went into", balance.later),
    ):
        for part in parts:
            pieces = str(part.pieces or "")
            rows.append([title, part.name or part.code, pieces, desk.shown(part.grams)])
    rows.append(["not accounted for", "", "", desk.shown(balance.gap_g)])
    output.table(
        (
            Column(""),
            Column(""),
            Column("supers or jars", right=True),
            Column("weight", right=True),
        ),
        rows,
    )
