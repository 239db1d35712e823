"""The page of recalls: nothing yet, a case about to be opened, and cases as they are worked at.

The sample season calls nothing back, so the cases are opened here by the verbs themselves, on the
copy that is pictured, and taken back by reversing them.
"""

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.passing import PLACE, SINCE, UNTIL
from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.recalls import (
    DRILL,
    AnswerRecall,
    CloseRecall,
    OpenRecall,
    TellConsignees,
)
from honeyledger.services.house import Recorded, Said
from honeyledger.services.recalls import recall_case
from tests.support.sample import code

PAGES = (
    *("recalls", "recalls-open", "recalls-through", "recalls-begun", "recalls-closed"),
    "recalls-rehearsed",
)
ABOUT = "splinters of glass in one jar, found by a shop"
LOT = "bottling 3"

_booked: list[int] = []


def _view(window: MainWindow) -> RecallsView:
    view = window.stations["recalls"]
    assert isinstance(view, RecallsView)
    return view


def _tell(window: MainWindow, facts: object) -> Recorded:
    person = _view(window).presenter.page
    assert person is not None
    done = window.desk.house.record(facts, Said(operator=person.people[0].code))
    _booked.extend(entry.id for entry in done.entries)
    return done


def _work_at(window: MainWindow, sort: str, *, to_the_end: bool) -> None:
    """Open a case on a jar lot; tell who has some; one answers; close it."""
    house = window.desk.house
    opened = OpenRecall(ABOUT, (code(LOT),), found="a shop rang", risk="cuts", sort=sort)
    case = _tell(window, opened).given[0]
    now_ms = house.clock()
    have = house.ask(lambda view: recall_case(view, now_ms, case)).consignees
    keys = tuple(one.key for one in have if one.key)
    if keys and (to_the_end or keys[1:]):
        _tell(window, TellConsignees(case, keys if to_the_end else keys[:1], "phone"))
    if to_the_end:
        for key in keys:
            _tell(window, AnswerRecall(case, key, here_jars=0, destroyed_jars=1, proof="pictures"))
        _tell(window, CloseRecall(case, "the washer is mended", "crushed, pictures kept"))
    view = _view(window)
    view.presenter.case = case
    window.desk.refresh.broadcast(EVERYTHING)


def bring(window: MainWindow, how: str) -> None:
    """Bring one of its pages about."""
    view = _view(window)
    page = view.presenter.page
    if page is None:
        return
    typed = {"about": ABOUT, "sort": "recall"}
    if how == "open":
        typed |= {"yard": page.yards[0].code, "first_day": "1 Jul 2026"}
    elif how == "through":
        typed |= {PLACE: page.equipment[0].code, SINCE: "20 Jul 2026 07:00"}
        typed |= {UNTIL: "21 Jul 2026 18:00"}
    elif how:
        sort = DRILL if how == "rehearsed" else "recall"
        _work_at(window, sort, to_the_end=how != "begun")
        return
    else:
        return
    view.form.choose(OPEN)
    view.presenter.asking.fill(FormTyped(typed))


def leave(window: MainWindow) -> None:
    """Back to a case of nothing."""
    view = _view(window)
    for kind in list(view.presenter.asking.specs):
        view.presenter.asking.clear(kind)
    view.form.choose(OPEN)
    while _booked:
        window.desk.house.record(Reverse(_booked.pop(), "pictured"))
        view.presenter.case = ""
        if not _booked:
            window.desk.refresh.broadcast(EVERYTHING)
