"""The owner's work on the house's own file or database; each is recorded as an entry."""

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording


@click.group(no_args_is_help=True)
def upkeep() -> None:
    """The owner's work on the house itself: upgrade, guards, projections."""


@upkeep.command(cls=Recording)
@click.pass_obj
def upgrade(desk: Desk) -> None:
    """Move a house of an older program to this one; a backup of its file is made before.

    \b
    Example: honeyledger upkeep upgrade --operator "Ann Reed"
    Undo: go on with the backup, and the older program.
    """
    copy = _do(desk, "upgrade")
    text = f"{desk.house_name} is upgraded." + (f" What it was is in {copy}." if copy else "")
    _tell(desk, "upgrade", {"backup": str(copy or "")}, text)


@upkeep.command(cls=Recording)
@click.pass_obj
def guards(desk: Desk) -> None:
    """Put the guards back that keep entries from being changed. Run the audit before.

    \b
    Example: honeyledger upkeep guards --operator "Ann Reed"
    Undo: not needed; it changes nothing that was recorded.
    """
    missing = _do(desk, "guards")
    assert isinstance(missing, tuple)
    named = f": {', '.join(missing)}" if missing else "; none was missing"
    _tell(desk, "guards", {"missing": list(missing)}, f"The guards are in place{named}.")


@upkeep.command(cls=Recording)
@click.pass_obj
def rebuild(desk: Desk) -> None:
    """Make stock, registers and all else that is computed anew from the entries.

    \b
    Example: honeyledger upkeep rebuild --operator "Ann Reed"
    Undo: not needed; it changes nothing that was recorded.
    """
    count = _do(desk, "rebuild")
    _tell(desk, "rebuild", {"replayed": count}, f"{count} entries were replayed.")


def _do(desk: Desk, action: str) -> object:
    station = desk.given.get("station") or desk.wiring.station_name(desk.settings)
    return desk.wiring.keep_up(action, desk.where, desk.given.get("operator", ""), station)


def _tell(desk: Desk, action: str, more: dict[str, object], text: str) -> None:
    head = desk.ask(lambda view: view.head())
    value = {
        "house": desk.house_name,
        "action": action,
        "entry": head.entry,
        "digest": head.digest,
    }
    desk.answer({**value, **more}, lambda: output.say(text))
