"""The words of the dock, and what its smaller forms are called before they are made."""

from PySide6.QtCore import QCoreApplication

SPLIT, JOIN, COUNT, MEASURE, BUY = "split", "join", "count", "measure", "buy"
SUPPLIERS, CONTAINERS = "suppliers", "containers"
# Which codes each form's scanned answer takes.
TAKEN = {SPLIT: "GS", JOIN: "G", COUNT: "GS", MEASURE: "GS", BUY: "E"}


def tr(text: str) -> str:
    """A text of the dock."""
    return QCoreApplication.translate("dock", text)
