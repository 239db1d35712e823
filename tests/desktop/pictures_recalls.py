"""The page of recalls: the sample's closed case and drill, and a case about to be opened, begun.

The case that is worked at is opened here by the verbs themselves, on the copy that is pictured,
and taken back by reversing it.
"""

from honeyledger.desktop.desk import EVERYTHING
from honeyledger.desktop.main_window import MainWindow
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.passing import PLACE, SINCE, UNTIL
from honeyledger.desktop.stations.recalls.view import RecallsView
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.recalls import OpenRecall, TellConsignees
from honeyledger.services.house import Recorded, Said
from honeyledger.services.recalls import recall_case
from tests.support.sample import code

PAGES = (
    *("recalls", "recalls-open", "recalls-through", "recalls-begun", "recalls-closed"),
    "recalls-rehearsed",
)
ABOUT = "splinters of glass in one jar, found by a shop"
LOT = "bottling 3"
FINISHED = {"closed": "recall 1", "rehearsed": "drill 1"}

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


def _work_at(window: MainWindow) -> None:
    """Open a case on a jar lot; tell the first of those who have some."""
    house = window.desk.house
    opened = OpenRecall(ABOUT, (code(LOT),), found="a shop rang", risk="cuts")
    case = _tell(window, opened).given[0]
    now_ms = house.clock()
    have = house.ask(lambda view: recall_case(view, now_ms, case)).consignees
    keys = tuple(one.key for one in have if one.key)
    _tell(window, TellConsignees(case, keys[:1], "phone"))
    _show(window, case)


def _show(window: MainWindow, case: str) -> None:
    """Bring a case into hand."""
    _view(window).presenter.case = case
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
    elif how == "begun":
        _work_at(window)
        return
    elif how in FINISHED:
        _show(window, code(FINISHED[how]))
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
    is_other = bool(_booked or view.presenter.case)
    while _booked:
        window.desk.house.record(Reverse(_booked.pop(), "pictured"))
    if is_other:
        _show(window, "")
