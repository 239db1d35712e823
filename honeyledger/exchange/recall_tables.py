"""A recall as tables that spreadsheets open and sort: lots in scope, and customers to write to.

CSV in UTF-8 with its mark, plain figures, one row for each lot, or for each customer: the second
is for a mail merge as well.
"""

import csv
import io
from collections.abc import Sequence

from honeyledger.domain.moments import format_iso
from honeyledger.exchange.drum_table import MARK
from honeyledger.services.recall_rows import RecallCase

SCOPE, CONSIGNEES = "scope", "consignees"
_RISKY = ("=", "+", "-", "@", "\t", "\r")


def scope_table(case: RecallCase) -> bytes:
    """Each lot in scope: grams as whole numbers."""
    rows: list[Sequence[object]] = [
        (
            case.code,
            lot.code,
            lot.noun,
            lot.where,
            *(lot.made_g, lot.here_g, lot.shipped_g, lot.sampled_g, lot.destroyed_g),
            *(lot.other_g, lot.went_on_g, lot.missing_g, lot.here_pieces, lot.shipped_pieces),
            " > ".join(lot.why),
        )
        for lot in case.lots
    ]
    head = (
        *("Case", "Lot", "What", "Where"),
        *("Made g", "Here g", "Sent g", "Sampled g", "Destroyed g"),
        *("Other g", "Went on g", "Not found g", "Jars here", "Jars sent"),
        "In it by",
    )
    return _written(head, rows)


def consignee_table(case: RecallCase) -> bytes:
    """Each customer, with what a letter to them needs."""
    rows: list[Sequence[object]] = [
        (
            case.code,
            case.about,
            one.name,
            *(one.details.get(part, "") for part in _DETAILS),
            ", ".join(one.lots),
            ", ".join(code for code, _ in one.notes),
            ", ".join(day for _, day in one.notes),
            *(one.has_g, one.has_pieces, one.back_g, one.open_g),
            format_iso(one.told[0].at) if one.told else "",
            one.told[-1].how if one.told else "",
            one.told[-1].by if one.told else "",
            format_iso(one.answered) if one.answered else "",
            "" if one.here_g is None else one.here_g,
            "" if one.here_pieces is None else one.here_pieces,
            *(one.destroyed_g, one.destroyed_pieces, one.proof, one.passed_on),
        )
        for one in case.consignees
    ]
    head = (
        *("Case", "About", "Who", "Address", "Phone", "E-mail", "Note"),
        *("Lots", "Papers", "Sent on", "Has g", "Has jars", "Came back g", "Open g"),
        *("Told first", "How", "By", "Answered", "On hand g", "On hand jars"),
        *("Destroyed g", "Destroyed jars", "Proof", "Passed on to"),
    )
    return _written(head, rows)


_DETAILS = ("place", "phone", "email", "note")


def _written(head: Sequence[str], rows: Sequence[Sequence[object]]) -> bytes:
    out = io.StringIO(newline="")
    table = csv.writer(out)
    table.writerow(head)
    table.writerows([[_safe(cell) for cell in row] for row in rows])
    return (MARK + out.getvalue()).encode("utf-8")


def _safe(cell: object) -> object:
    """What a spreadsheet would take for a formula begins with an apostrophe instead."""
    if isinstance(cell, str) and cell.startswith(_RISKY):
        return f"'{cell}"
    return cell
