"""The mast says whose house it is, and gives up what is least needed."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.frame_facts import MastFacts
from honeyledger.desktop.widgets.mast import Mast

FACTS = MastFacts("Windrow Flats Honey", "Extraction", "Margarethe of the north", "O2", "2026")


def _mast(qtbot: QtBot, width: int) -> Mast:
    mast = Mast()
    qtbot.addWidget(mast)
    mast.show_facts(FACTS)
    mast.resize(width, mast.height())
    mast.show()
    return mast


def test_all_of_it_is_said_where_there_is_room(qtbot: QtBot) -> None:
    mast = _mast(qtbot, 1280)
    assert mast.height() == 48
    assert mast.side_words() == "Extraction · Margarethe of the north · 2026"
    assert 320 <= mast.scan_box.width() <= 480
    mast.grab()


def test_the_season_goes_first_and_the_name_becomes_a_badge_number(qtbot: QtBot) -> None:
    mast = _mast(qtbot, 1280)
    seen: list[str] = []
    for width in range(1280, 700, -20):
        mast.resize(width, mast.height())
        if not seen or seen[-1] != mast.side_words():
            seen.append(mast.side_words())
    assert seen[:3] == [
        "Extraction · Margarethe of the north · 2026",
        "Extraction · Margarethe of the north",
        "Extraction · O2",
    ]


def test_the_whole_is_read_out_whatever_is_shown(qtbot: QtBot) -> None:
    mast = _mast(qtbot, 900)
    assert mast.accessibleName() == (
        "Windrow Flats Honey · Extraction · Margarethe of the north · 2026"
    )
    assert mast.toolTip() == mast.accessibleName()
