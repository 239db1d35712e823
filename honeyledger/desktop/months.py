"""The months as the window calls them, and a day of the ledger's said with them."""

import re

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

_CONTEXT = "days"
_MONTHS = (
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Jan")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Feb")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Mar")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Apr")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "May")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Jun")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Jul")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Aug")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Sep")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Oct")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Nov")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Dec")),
)
_SHOWN = re.compile(rf"(\d{{1,2}} )({'|'.join(_MONTHS)})( \d{{4}})(.*)")


def month_word(month: int) -> str:
    """What a month, the first is 1, is called in the language in use, in few letters."""
    return _in_words(_MONTHS[month - 1])


def day_in_words(text: str) -> str:
    """A text that begins with a day as the ledger writes it, with its month in the language in
    use; any other text as it is.
    """
    found = _SHOWN.fullmatch(text)
    return f"{found[1]}{_in_words(found[2])}{found[3]}{found[4]}" if found else text


def _in_words(name: str) -> str:
    return QCoreApplication.translate(_CONTEXT, name)
