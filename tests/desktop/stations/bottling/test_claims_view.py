"""Claims stand in two columns, in one where there is no room."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.claim_words import Claim
from honeyledger.desktop.stations.bottling.claims_view import Claims

FOUR = tuple(Claim(Mark.READY, f"Claim {n}:", "yes") for n in range(4))


def test_claims_are_laid_out_by_the_room_there_is(qtbot: QtBot) -> None:
    claims = Claims("What may be said")
    qtbot.addWidget(claims)
    claims.resize(720, 200)
    claims.show()
    claims.show_claims(FOUR)
    assert claims.shown() == FOUR
    wide = claims.sizeHint().height()
    claims.resize(400, 300)
    qtbot.waitUntil(lambda: claims.sizeHint().height() > wide)
    claims.grab()


def test_old_ones_are_never_seen_behind_new_ones(qtbot: QtBot) -> None:
    claims = Claims("What may be said")
    qtbot.addWidget(claims)
    claims.resize(720, 200)
    claims.show()
    claims.show_claims(FOUR)
    claims.show_claims(FOUR[:1])
    names = [
        child.accessibleName()
        for child in claims.children()
        if child.isWidgetType() and child.isVisible() and "Claim" in child.accessibleName()  # type: ignore[attr-defined]
    ]
    assert names == ["Claim 0: yes"]
    claims.show_claims(FOUR[:1])
    claims.grab()
