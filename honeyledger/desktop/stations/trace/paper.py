"""A trace on paper: its answer, its river, all rows of its table, the head it was asked at."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.paper import Paper, cells_of
from honeyledger.desktop.models.rows import Column, Total
from honeyledger.desktop.stations.trace.presenter import Timed
from honeyledger.domain.moments import Moment
from honeyledger.services.labelling import HEAD_DIGITS


def paper_of(
    timed: Timed,
    heading: tuple[str, ...],
    table: tuple[Sequence[Column[Any]], Sequence[object]],
    lead: str,
    totals: Mapping[str, Total],
    now: Moment,
) -> Paper:
    """What is printed of an answer.

    Args:
        heading: what stands above the answer, and the answer.
        table: the columns and the rows, each with all its words.
        lead, totals: what stands under them.
    """
    columns, rows = table
    page = timed.answer
    words = QCoreApplication.translate("trace", "{house} · head {head} · printed {now}")
    head = f"{page.entries} {page.digest[:HEAD_DIGITS].upper()}"
    foot = words.format(house=page.house, head=head, now=format_moment(now))
    return Paper(
        heading,
        timed.river if timed.river is not None and timed.river.nodes else None,
        tuple(columns),
        cells_of(columns, rows),
        lead,
        tuple(totals.items()),
        foot,
    )
