"""The command that reckons check characters, and reads what a GS1 code says, days included."""

import re
from datetime import date

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.check_pairs import check_pair, has_check_pair
from honeyledger.domain.codes import check_character
from honeyledger.domain.gs1 import check_digit, read_elements
from honeyledger.domain.gs1_days import DAYS, gs1_day
from honeyledger.domain.moments import format_day

# Without a house nobody says what day it is: years are those of 2000 to 2099.
_IN_2000S = date(2049, 1, 1)


@click.command(cls=Asking)
@click.argument("text")
@click.pass_obj
def code(desk: Desk, text: str) -> None:
    """Check characters that belong behind a text; or what a GS1 code says.

    \b
    Example: honeyledger reckon code 629104150021
    Example: honeyledger reckon code "(01)09521234543213(17)260400"
    """
    elements = read_elements(text, field="text")
    if elements is not None:
        read = {
            ai: format_day(gs1_day(value, _IN_2000S, field="text")) if ai in DAYS else value
            for ai, value in elements.items()
        }
        lines = [f"({ai}) {value}" for ai, value in read.items()]
        desk.answer({"elements": read}, lambda: say("\n".join(lines)))
        return
    pair = check_pair(text, field="text")
    plain = re.sub(r"[\s-]", "", text).upper()
    found = {
        "gs1": check_digit(plain) if plain.isdigit() else None,
        "mod_37_36": check_character(plain),
        "mod_97_10": pair,
        "ends_in_its_pair": has_check_pair(text, field="text"),
    }
    lines = [
        *([f"GS1 check digit: {found['gs1']}"] if found["gs1"] else []),
        f"ISO/IEC 7064 MOD 37,36: {found['mod_37_36']}",
        f"ISO/IEC 7064 MOD 97-10: {pair}",
        *(["It ends in its own MOD 97-10 digits."] if found["ends_in_its_pair"] else []),
    ]
    desk.answer(found, lambda: say("\n".join(lines)))


COMMANDS = (code,)
