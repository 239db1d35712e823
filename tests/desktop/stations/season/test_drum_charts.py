"""The stock of drums, as it is drawn and said."""

from honeyledger.desktop.models.charts import Part
from honeyledger.desktop.stations.season.drum_charts import (
    NOT_READ,
    drums_answer,
    drums_chart,
    drums_figures,
    drums_notes,
)
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of


def test_a_class_with_its_free_and_its_held_honey(rig: DeskRig) -> None:
    drum = fill_house(rig)
    rig.house.record(Fill("Tank", Weight(net_g=60_000)))
    rig.house.record(PutOnHold(drum, "treatment record"))
    page = page_of(rig)
    chart = drums_chart(page)
    white, unread = chart.items
    assert (white.name, white.parts) == ("W white", (Part(1, 290.0),))
    assert white.words == "290 kg, 1 on hold"
    assert white.spoken == "W white: 1 drum, 290 kg, 290 kg on hold, up to 18.6 %"
    assert white.cells == ("W white", "1", "290", "290", "18.6")
    assert white.pfund_mm == 25.5
    assert (unread.name, unread.parts, unread.pfund_mm) == ("not read", (Part(0, 60.0),), NOT_READ)
    assert chart.series == ("free", "on hold")
    assert chart.totals == ("All drums", "2", "350", "290", "")
    assert drums_answer(page) == "2 drums, totes and pails hold 350 kg; one is on hold."
    assert [(one.figure, one.meaning) for one in drums_figures(page)] == [
        ("60 kg", "not on hold"),
        ("1", "over 18.0 %"),
        ("1", "moisture not read"),
    ]
    assert [note.sentence for note in drums_notes(page)] == [
        "1 drum has no colour on record: it is read in the drums (Ctrl+5)."
    ]


def test_an_empty_house(rig: DeskRig) -> None:
    page = page_of(rig)
    assert drums_answer(page) == "No honey stands in drums."
    assert drums_chart(page).empty.endswith("They are filled on the floor (Ctrl+4).")
    assert drums_figures(page) == drums_notes(page) == []
    assert drums_chart(page).series == ()
