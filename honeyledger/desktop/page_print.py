"""A page of the window onto paper: by whom and which print of it, in its file, put on record.

A picture is for a screen: it is written and is on no record.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.desk import PRINTED, Desk
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.models.paper import Paper
from honeyledger.desktop.printing import into_file
from honeyledger.desktop.widgets.paper import pdf_of_all, png_of
from honeyledger.ledger.verbs.printing import Printed, prints_of
from honeyledger.services.holding import name_in
from honeyledger.services.store import View

Then = Callable[[Outcome[Path]], None]


@dataclass(frozen=True, slots=True)
class PagesOnPaper:
    """Pages of the window that are printed as one.

    Args:
        name: its file's, without an ending.
        kind: the word its prints are on record under.
        of: what it is of.
        papers: the pages, one behind the other.
    """

    name: str
    kind: str
    of: str
    papers: Sequence[Paper]


def print_pages(
    desk: Desk, what: PagesOnPaper, then: Then, progress: Report | None = None
) -> None:
    """Print them into a file among the person's papers, and put that on record."""
    operator, file = desk.operator, desk.papers / f"{what.name}.pdf"

    def ask(view: View) -> str:
        return _more(view, what, operator)

    def asked(outcome: Outcome[str]) -> None:
        if outcome.value is None:
            then(Outcome(error=outcome.error))
            return
        more = outcome.value
        papers = [replace(paper, foot=f"{paper.foot}{more}") for paper in what.papers]
        desk.jobs.work(
            lambda report: into_file(file, pdf_of_all(papers, report)), written, progress=progress
        )

    def written(outcome: Outcome[Path]) -> None:
        if outcome.value is not None and not desk.is_visit:
            facts = [Printed(what.kind, what.of)]
            desk.record(facts, desk.said_now(), lambda _done: None, changes=PRINTED)
        then(outcome)

    desk.jobs.read(lambda: desk.house.ask(ask), asked)


def picture_page(desk: Desk, name: str, paper: Paper, then: Then) -> None:
    """Write a page as one picture among the person's papers."""
    file = desk.papers / f"{name}.png"
    desk.jobs.work(lambda _report: into_file(file, png_of(paper)), then)


def _more(view: View, what: PagesOnPaper, operator: str) -> str:
    """What follows the time at the foot: who printed it, and which print of it it is."""
    who = name_in(view, f"operator/{operator}", operator) if operator else ""
    again = prints_of(view, what.kind, what.of)
    words = [QCoreApplication.translate("page_print", "by {who}").format(who=who)] if who else []
    if again:
        words.append(QCoreApplication.translate("page_print", "reprint {n}").format(n=again))
    return "".join(f" · {one}" for one in words)
