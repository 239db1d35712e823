"""A room as small forms ask for it: one that is not on record yet can be added at once."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import Ask, FormTyped, Reading, Typing
from honeyledger.ledger.verbs.registers import Register

ROOMS = "rooms"
ROOM, STRANGER = "room", "stranger"
ADD, MISTYPED = "add", "mistyped"


def _tr(text: str) -> str:
    return QCoreApplication.translate("rooms", text)


def room_ask(part: int = 1) -> Ask:
    """The room: one of those on record, or a new name."""
    return Ask(ROOM, _tr("Room"), Typing.CHOICE, offers=ROOMS, part=part)


def stranger_ask() -> Ask:
    """What a name nobody has means; asked only then."""
    return Ask(
        STRANGER,
        _tr("No room of that name yet"),
        Typing.BUTTONS,
        buttons=((ADD, _tr("add it")), (MISTYPED, _tr("mistyped"))),
        shown=is_strange,
    )


def is_strange(typed: FormTyped, reading: Reading) -> bool:
    """Whether the room that is typed is none of those on record."""
    wanted = typed.text(ROOM).casefold()
    known = [room.name.casefold() for room in reading.page.rooms] if reading.page else [wanted]
    return bool(wanted) and wanted not in known


def room_first(typed: FormTyped, reading: Reading) -> Sequence[Register]:
    """The room's own record, where it is to be added."""
    if is_strange(typed, reading) and typed.text(STRANGER) == ADD:
        return [Register("room", {"name": typed.text(ROOM)})]
    return []
