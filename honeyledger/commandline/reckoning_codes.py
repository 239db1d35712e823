"""The command that reckons check characters, and reads what a GS1 code says, days included."""

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.code_facts import CodeFacts, code_facts

_FITS = {
    True: ["Its last digit fits as a GS1 check digit."],
    False: ["Its last digit does not fit as a GS1 check digit."],
    None: [],
}


@click.command(cls=Asking)
@click.argument("text")
@click.pass_obj
def code(desk: Desk, text: str) -> None:
    """Check characters that belong behind a text; or what a GS1 code says.

    \b
    Example: honeyledger reckon code 629104150021
    Example: honeyledger reckon code "(01)09521234543213(17)260400"
    """
    found = code_facts(text)
    if found.elements:
        lines = [f"({ai}) {value}" for ai, value in found.elements.items()]
        desk.answer({"elements": dict(found.elements)}, lambda: say("\n".join(lines)))
        return
    answer = {
        "gs1": found.gs1 or None,
        "gs1_fits": found.fits_gs1,
        "mod_37_36": found.character,
        "ends_in_its_character": found.ends_in_character,
        "mod_97_10": found.pair,
        "ends_in_its_pair": found.ends_in_pair,
    }
    desk.answer(answer, lambda: say("\n".join(_lines(found))))


def _lines(found: CodeFacts) -> list[str]:
    return [
        *([f"GS1 check digit: {found.gs1}"] if found.gs1 else []),
        f"ISO/IEC 7064 MOD 37,36: {found.character}",
        f"ISO/IEC 7064 MOD 97-10: {found.pair}",
        *_FITS[found.fits_gs1],
        *(["It ends in its own MOD 37,36 character."] if found.ends_in_character else []),
        *(["It ends in its own MOD 97-10 digits."] if found.ends_in_pair else []),
    ]


COMMANDS = (code,)
