"""Pages of a drum room, made by hand."""

from datetime import date

from honeyledger.services.dock import Choice
from honeyledger.services.drums_page import DrumRow, DrumsPage
from honeyledger.services.holding import HoldRow


def _row(code: str, container: str, moisture: int | None, colour: int | None) -> DrumRow:
    return DrumRow(
        code=code,
        container=container,
        container_code="E26-0005-P" if container == "Drum 7" else "",
        noun="drum",
        state="ready" if moisture else "not read",
        grams=300_000,
        moisture=moisture,
        colour=colour,
        held=(),
        owner="",
        spot="",
        missing=False,
        yards=("Mill Lane",),
        age_days=3,
    )


PALE = _row("D26-0001-C", "Drum 7", 1_720, 310)
_DARK = _row("D26-0002-A", "Drum 8", 1_650, 990)
DARK = DrumRow(
    *(_DARK.code, _DARK.container, "", "drum", "ready", 200_000, 1_650, 990, ()),
    *("Ann Ferris", "Drum room, row B3", False, ("Willow Bank",), 1),
)
HELD = DrumRow(
    *("D26-0003-8", "", "", "drum", "hold", 250_000, 1_960, None),
    *(("S26-0001-G: strips",), "", "", False, ("Hill Top", "Mill Lane", "Willow Bank"), 9),
)
UNREAD = DrumRow(
    *("D26-0004-6", "Pail 4", "", "drum", "not read", 27_000, None, None, ()),
    *("", "", True, (), 0),
)
HOLD = HoldRow("9", "S26-0001-G", "S26-0001-G", "", "", "strips", ("D26-0003-8",), 250_000)
BOUGHT = HoldRow("12", "P26-0001-M", "P26-0001-M", "", "", "no certificate", (), 0)
PAGE = DrumsPage(
    ledger="ledger-1",
    unit="kg",
    zone="UTC",
    today=date(2026, 7, 24),
    rows=(HELD, UNREAD, PALE, DARK),
    holds=(HOLD, BOUGHT),
    vessels=(Choice("E26-0002-U", "Blender"),),
    rooms=(Choice("drum-room", "Drum room"),),
    yards=(Choice("Y26-0001-P", "Mill Lane"),),
)
