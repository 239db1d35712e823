"""From the page of recalls to its tables, its heading and what is told of the case in hand."""

from functools import partial

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.days import format_day, format_moment
from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.stations.recalls.words import counted, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number, format_share
from honeyledger.ledger.verbs.recalls import DRILL
from honeyledger.services.recall_rows import (
    CaseHead,
    Consignee,
    RecallCase,
    ScopeHead,
)
from honeyledger.services.recalls_page import RecallsPage


def sort_words() -> dict[str, str]:
    """The kinds of cases, in the language in use."""
    return {"recall": tr("recall"), "withdrawal": tr("withdrawal"), "drill": tr("drill")}


def case_columns() -> tuple[Column[CaseHead], ...]:
    """All cases: how they stand, what they are about, who was told."""
    return (
        Column("code", tr("Case"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: tr("closed") if row.is_closed else tr("open"),
            ColumnKind.STATE,
            mark=_case_mark,
        ),
        Column(
            "about",
            tr("About"),
            lambda row: row.about,
            ColumnKind.NAME,
            note=lambda row: sort_words()[row.sort],
            least=150,
        ),
        Column(
            "told",
            tr("Told"),
            _told_of,
            sort_key=lambda row: (row.customers or 0) - row.told,
        ),
        Column(
            "opened",
            tr("Opened"),
            lambda row: format_moment(row.opened),
            sort_key=lambda row: row.opened.at_ms,
            least=152,  # a day and an hour are read whole; what it is about gives way
            from_width=560,
        ),
    )


def _told_of(row: CaseHead) -> str:
    """How many were told; of all of them once that is known."""
    if row.customers is None:
        return format_number(row.told)
    return tr("{told} of {n}").format(told=row.told, n=row.customers)


def _case_mark(row: CaseHead) -> Mark:
    if row.is_closed:
        return Mark.READY
    return Mark.NOTE if row.sort == DRILL else Mark.HOLD


def _bare(grams: int | None, unit: MassUnit) -> str:
    if grams is None:
        return ""
    return format_mass(grams, unit).removesuffix(f" {unit}")


def who_columns(unit: MassUnit, *, is_drill: bool = False) -> tuple[Column[Consignee], ...]:
    """Who has some of it, and how far they are; a drill tells nobody."""

    def mass(key: str, title: str, wide: int = 0) -> Column[Consignee]:
        def grams(row: Consignee) -> int | None:
            found: int | None = getattr(row, key)
            return found

        return Column(
            key,
            title,
            lambda row: _bare(grams(row), unit),
            ColumnKind.NUMBER,
            unit=unit,
            sort_key=lambda row: grams(row) or 0,
            from_width=wide,
        )

    return (
        Column("name", tr("Who"), lambda row: row.name, ColumnKind.NAME, note=_how_reached),
        Column(
            "state",
            tr("State"),
            partial(who_state, is_drill=is_drill),
            ColumnKind.STATE,
            mark=partial(_who_mark, is_drill=is_drill),
        ),
        mass("has_g", tr("Has")),
        mass("open_g", tr("Open")),
        mass("back_g", tr("Came back"), 640),
        mass("here_g", tr("On hand"), 760),
        mass("destroyed_g", tr("Destroyed"), 860),
    )


def _how_reached(row: Consignee) -> str:
    said = (row.details.get(part, "") for part in ("phone", "email", "place"))
    return ", ".join(text for text in said if text)


def who_state(row: Consignee, *, is_drill: bool = False) -> str:
    """How far one of them is, in at most two words."""
    if not row.key:
        return tr("nobody known")
    if row.answered is not None:
        return tr("answered")
    if row.told:
        return tr("told")
    return tr("drill") if is_drill else tr("not told")


def _who_mark(row: Consignee, *, is_drill: bool = False) -> Mark:
    if is_drill and row.key and not row.told:
        return Mark.NOTE
    if not row.key or not row.told:
        return Mark.WARNING
    return Mark.READY if row.answered is not None and not row.open_g else Mark.WAITING


def heading(page: RecallsPage) -> str:
    """How many cases are open."""
    if page.open_ones:
        return counted(len(page.open_ones), tr("One case is open"), tr("{n} cases are open"))
    return tr("No case is open")


def told(page: RecallsPage) -> list[Message]:
    """What there is to know of the case in hand, and of the next drill."""
    messages = []
    if page.case is not None:
        messages += _of_case(page.case, page.unit)
    elif page.scope is not None:
        scope = _scope_told(page.scope, page.scope.lots, page.unit)
        messages += [scope, Message(Mark.WAITING, tr("Who has it, and what is missing, follows."))]
    if page.drill.is_due:
        lead = tr("A drill is due.")
        words = tr("Scan a jar of any lot, say it is a drill, and find all of it by the clock.")
        messages.append(Message(Mark.WAITING, lead, words))
    elif page.drill.day is not None:
        words = tr("The next drill is due on {day}.").format(day=format_day(page.drill.day))
        messages.append(Message(Mark.NOTE, words))
    return messages


def _scope_told(case: RecallCase | ScopeHead, lots: int, unit: MassUnit) -> Message:
    """What is in it, and where that is."""
    counted_lots = counted(lots, tr("1 lot in scope"), tr("{n} lots in scope"))
    lead = f"{case.code}: {case.about}."
    where = tr("{lots}: {here} here, {sent} with customers.").format(
        lots=counted_lots,
        here=format_mass(case.here_g, unit),
        sent=format_mass(case.shipped_g, unit),
    )
    stands = tr("Stands on {what}.").format(what=say(case.stands_on))
    mark = Mark.READY if case.is_closed else Mark.NOTE if case.sort == DRILL else Mark.HOLD
    return Message(mark, lead, f"{where} {stands}")


def _ended(case: RecallCase) -> list[Message]:
    """How a case ended: of a drill how long it took, and what had to be looked up by hand."""
    if not case.is_closed:
        return []
    if case.sort != DRILL:
        lead = tr("Closed by {who}: {result}.").format(who=case.closed_by, result=case.result)
        return [Message(Mark.READY, lead, case.disposal)]
    minutes = max(0, case.timeline[-1].at.at_ms - case.opened.at_ms) // 60_000
    lead = counted(minutes, tr("The drill took 1 minute."), tr("The drill took {n} minutes."))
    by_hand = tr("Looked up by hand: {what}.").format(what=case.result)
    return [Message(Mark.READY, lead, " ".join(part for part in (by_hand, case.disposal) if part))]


def _of_case(case: RecallCase, unit: MassUnit) -> list[Message]:
    messages = [_scope_told(case, len(case.lots), unit), *_ended(case)]
    missing = 10_000 - case.accounted
    share = format_share(case.accounted / 10_000)
    facts = {"share": share, "missing": format_mass(case.missing_g, unit)}
    if missing >= case.explain_from:
        words = tr("{share} accounted for; {missing} are not: explain it in writing.")
        messages.append(Message(Mark.REFUSED, words.format(**facts)))
    elif missing >= case.warn_from:
        words = tr("{share} accounted for; {missing} are not: look for it.")
        messages.append(Message(Mark.WARNING, words.format(**facts)))
    else:
        messages.append(Message(Mark.READY, tr("{share} accounted for.").format(share=share)))
    if case.sort == DRILL and not case.told:
        if case.to_tell:
            many = tr("A drill tells nobody: {n} customers would be told.")
            words = counted(
                case.to_tell, tr("A drill tells nobody: 1 customer would be told."), many
            )
            messages.append(Message(Mark.NOTE, words))
    elif case.to_tell:
        words = tr("{told} of {n} told, {answered} answered; {back} of {sent} back or destroyed.")
        messages.append(
            Message(
                Mark.READY if case.told == case.to_tell else Mark.WARNING,
                words.format(
                    told=format_number(case.told),
                    n=format_number(case.to_tell),
                    answered=format_number(case.answered),
                    back=format_mass(case.recovered_g, unit),
                    sent=format_mass(case.sent_g, unit),
                ),
                tr("Agree scope, class and wording with your authority."),
            )
        )
    return messages
