"""What a scan was, in words: how it came, how fast, and what stands behind it."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.scanning import LONGEST_GAP_MS, Scan
from honeyledger.domain.codes import LETTERS, JarCode, parse_code
from honeyledger.domain.gs1 import SEPARATOR
from honeyledger.domain.refusals import Refusal


def tr(text: str) -> str:
    """A word of the page of keys, in the language in use."""
    return QCoreApplication.translate("keys", text)


def scan_messages(scan: Scan | None, text: str, prefix: str) -> list[Message]:
    """What was scanned, or typed in the scan box, as it came and as it is read.

    Args:
        scan: how it came; None where it was typed.
        prefix: the letters before this house's codes.
    """
    shown = text.replace(SEPARATOR, "␝")
    messages = [Message(Mark.NOTE, tr("It came as"), f"{shown}.")]
    if scan is not None and scan.text == text:
        gap_ms = scan.took_ms / max(1, len(text))
        words = tr("{ms} ms between its keys, ended by {end}.")
        words = words.format(ms=f"{gap_ms:.0f}", end=scan.end)
        if gap_ms > LONGEST_GAP_MS / 2:
            slow = tr("That is slow for a scanner: set it to send without a delay.")
            messages.append(Message(Mark.WARNING, words, slow))
        else:
            messages.append(Message(Mark.READY, words))
    else:
        words = tr("It was typed, or came too slowly to be told from a hand.")
        messages.append(Message(Mark.NOTE, words))
    messages.append(_meaning(text, prefix))
    return messages


def _meaning(text: str, prefix: str) -> Message:
    """What stands behind it."""
    try:
        code = parse_code(text, prefix)
    except Refusal as refusal:
        return Message(Mark.REFUSED, tr("No code of a house."), refusal_words(refusal))
    if isinstance(code, JarCode):
        words = tr("{code}, jar {serial} of {lot}.")
        said = words.format(code=code, serial=code.serial, lot=code.lot)
        return Message(Mark.READY, tr("It is read as"), said)
    words = tr("{code}, {noun}.").format(code=code, noun=say(LETTERS[code.letter]))
    return Message(Mark.READY, tr("It is read as"), words)


def begin_messages() -> list[Message]:
    """What is said before anything was scanned."""
    return [
        Message(
            Mark.NOTE,
            tr("Scan any label here."),
            tr("This page says how it came and how it is read; nothing else is done with it."),
        ),
        Message(
            Mark.NOTE,
            tr("Set the scanner to a keyboard,"),
            tr(
                "United States layout, ended by Enter or Tab. Before the code it may send what "
                "kind of symbol it read; capitals, and caps lock, do not matter."
            ),
        ),
    ]
