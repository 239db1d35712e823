"""Everything a key can do, in one table: menus, shortcuts and the help page read it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

_CONTEXT = "actions"


@dataclass(frozen=True, slots=True)
class ActionSpec:
    """One action.

    Args:
        key: stable name; "open-dock".
        text: what a menu says, marked for translation here.
        keys: the shortcut as Qt writes it.
        tip: what it does, in a sentence.
        opens: the place or tool it opens, where it opens one.
    """

    key: str
    text: str
    keys: str
    tip: str
    opens: str = ""


def _spec(key: str, keys: str, text: object, tip: object, opens: str = "") -> ActionSpec:
    return ActionSpec(key, str(text), keys, str(tip), opens)


N = QT_TRANSLATE_NOOP

ACTIONS = (
    _spec("scan", "F2", N(_CONTEXT, "Scan or type a code"),
          N(_CONTEXT, "Goes to the scan box; Esc comes back.")),
    _spec("help", "F1", N(_CONTEXT, "Help"),
          N(_CONTEXT, "Opens the guide at this page; Esc comes back."), "guide"),
    _spec("open-yards", "Ctrl+1", N(_CONTEXT, "Yards"),
          N(_CONTEXT, "Opens the yards."), "yards"),
    _spec("open-dock", "Ctrl+2", N(_CONTEXT, "Dock"),
          N(_CONTEXT, "Opens the dock, where supers come in."), "dock"),
    _spec("open-hot-room", "Ctrl+3", N(_CONTEXT, "Hot room"),
          N(_CONTEXT, "Opens the hot room."), "hot_room"),
    _spec("open-extraction", "Ctrl+4", N(_CONTEXT, "Extraction"),
          N(_CONTEXT, "Opens the run on the floor."), "extraction"),
    _spec("open-drums", "Ctrl+5", N(_CONTEXT, "Drums"),
          N(_CONTEXT, "Opens the drums."), "drums"),
    _spec("open-bottling", "Ctrl+6", N(_CONTEXT, "Bottling"),
          N(_CONTEXT, "Opens the bottling."), "bottling"),
    _spec("open-dispatch", "Ctrl+7", N(_CONTEXT, "Dispatch"),
          N(_CONTEXT, "Opens the orders and what goes out."), "dispatch"),
    _spec("open-trace", "Ctrl+8", N(_CONTEXT, "Trace"),
          N(_CONTEXT, "Traces a code to its yards, or forward to its jars."), "trace"),
    _spec("open-season", "Ctrl+9", N(_CONTEXT, "Season"),
          N(_CONTEXT, "Opens the season's figures."), "season"),
    _spec("open-setup", "Ctrl+0", N(_CONTEXT, "Setup"),
          N(_CONTEXT, "Opens the house's settings."), "setup"),
    _spec("open-entries", "Ctrl+E", N(_CONTEXT, "What was recorded"),
          N(_CONTEXT, "Lists the newest entries, to look through, reverse or amend."), "entries"),
    _spec("open-checks", "Ctrl+Shift+C", N(_CONTEXT, "Checks"),
          N(_CONTEXT, "Lists what is to be checked, and what was found off."), "checks"),
    _spec("open-recalls", "Ctrl+Shift+K", N(_CONTEXT, "Recalls"),
          N(_CONTEXT, "Opens cases, says who was told, prints report and letters."), "recalls"),
    _spec("open-exposure", "Ctrl+Shift+E", N(_CONTEXT, "Recall exposure"),
          N(_CONTEXT, "Shows what ties most together, and what a wash tonight saves."),
          "exposure"),
    _spec("open-calculator", "Ctrl+Shift+R", N(_CONTEXT, "Calculator"),
          N(_CONTEXT, "Reckons moisture, colour, a dip, a blend, jars, air, units, days."),
          "calculator"),
    _spec("back-up", "Ctrl+B", N(_CONTEXT, "Back up now"),
          N(_CONTEXT, "Writes a checked copy of the house into the folder for backups.")),
    _spec("pad", "Ctrl+G", N(_CONTEXT, "Type from the pad"),
          N(_CONTEXT, "What was written on paper: says when it happened, time approximate.")),
    _spec("visit", "Ctrl+Shift+V", N(_CONTEXT, "Inspector's visit"),
          N(_CONTEXT, "Read only, customers hidden; left again by scanning a badge.")),
    _spec("card", "Ctrl+I", N(_CONTEXT, "Card of the chosen lot"),
          N(_CONTEXT, "Opens the card of the lot that is chosen; Esc closes it.")),
    _spec("trace-this", "Ctrl+T", N(_CONTEXT, "Trace the chosen lot"),
          N(_CONTEXT, "Traces the lot that is chosen.")),
    _spec("affected", "Ctrl+Shift+A", N(_CONTEXT, "What is affected"),
          N(_CONTEXT, "In Trace: all that goes with the code, who has it, to hold all of it.")),
    _spec("exposure-this", "Ctrl+Shift+X", N(_CONTEXT, "Exposure of what is traced"),
          N(_CONTEXT, "In Trace: what would go with the code, were it called back today.")),
    _spec("residue", "Ctrl+Shift+N", N(_CONTEXT, "Residue in what is traced"),
          N(_CONTEXT, "In Trace: what a residue in the code comes to in every lot made of it.")),
    _spec("complaint", "Ctrl+Shift+O", N(_CONTEXT, "Complaint"),
          N(_CONTEXT, "In Trace: takes in a complaint about the jar, with its trace.")),
    _spec("message", "Ctrl+Shift+M", N(_CONTEXT, "All of the message"),
          N(_CONTEXT, "Shows a message that has no room in its place; so does a press on it.")),
    _spec("find", "Ctrl+F", N(_CONTEXT, "Find in the table"),
          N(_CONTEXT, "Narrows the table to what is typed.")),
    _spec("table", "Ctrl+Shift+T", N(_CONTEXT, "What to do with the table"),
          N(_CONTEXT, "Orders its rows, sets its columns, copies or saves it.")),
    _spec("save-table", "Ctrl+Shift+S", N(_CONTEXT, "Save the table as a file"),
          N(_CONTEXT, "Writes what the table shows into a file for a spreadsheet.")),
    _spec("print", "Ctrl+P", N(_CONTEXT, "Print"),
          N(_CONTEXT, "Prints what this page is about.")),
    _spec("look-first", "Ctrl+Shift+L", N(_CONTEXT, "Look before it is printed"),
          N(_CONTEXT, "Shows what Print prints; asks for copies and, of labels, where to begin.")),
    _spec("picture", "Ctrl+Shift+P", N(_CONTEXT, "Save as a picture"),
          N(_CONTEXT, "Saves what is drawn on this page, with its table, as a picture.")),
    _spec("reverse", "Ctrl+Shift+U", N(_CONTEXT, "Reverse the last entry"),
          N(_CONTEXT, "Takes back what was just recorded; on the list, the chosen entry.")),
    _spec("clear", "Ctrl+Backspace", N(_CONTEXT, "Clear the form"),
          N(_CONTEXT, "Empties the form; nothing is recorded.")),
    _spec("repeat", "Ctrl+R", N(_CONTEXT, "Repeat the last one"),
          N(_CONTEXT, "Fills the form as for the last pallet; asks for a customer's last order.")),
    _spec("more-yards", "Ctrl+N", N(_CONTEXT, "One more beside this"),
          N(_CONTEXT, "On the dock: another yard on this pallet. In dispatch: another note.")),
    _spec("operator", "Ctrl+L", N(_CONTEXT, "Who works here"),
          N(_CONTEXT, "Chooses who works here now; a badge scanned anywhere does too.")),
    _spec("theme", "Ctrl+D", N(_CONTEXT, "Light or dark"),
          N(_CONTEXT, "Changes between the light and the dark window.")),
    _spec("shortcuts", "Ctrl+K", N(_CONTEXT, "Keys"),
          N(_CONTEXT, "Lists every key."), "keys"),
    _spec("quit", "Ctrl+Q", N(_CONTEXT, "Close Honeyledger"),
          N(_CONTEXT, "Finishes what is being recorded and closes the window.")),
)  # fmt: skip


def action_text(spec: ActionSpec) -> str:
    """What the action is called, in the language in use."""
    return QCoreApplication.translate(_CONTEXT, spec.text)


def action_tip(spec: ActionSpec) -> str:
    """What the action does, in the language in use."""
    return QCoreApplication.translate(_CONTEXT, spec.tip)


def attach(window: QWidget, handlers: Mapping[str, Callable[[], object]]) -> dict[str, QAction]:
    """Give a window every action of the table, each with its handler.

    Raises:
        ValueError: an action has no handler, or a handler has no action.
    """
    specs = {spec.key: spec for spec in ACTIONS}
    unhandled = specs.keys() ^ handlers.keys()
    if unhandled:
        raise ValueError(f"Actions and handlers differ: {', '.join(sorted(unhandled))}.")
    made: dict[str, QAction] = {}
    for key, spec in specs.items():
        action = QAction(action_text(spec), window)
        action.setObjectName(key)
        action.setShortcut(QKeySequence(spec.keys))
        action.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
        action.setToolTip(action_tip(spec))
        action.triggered.connect(lambda _checked=False, key=key: handlers[key]())
        window.addAction(action)
        made[key] = action
    return made
