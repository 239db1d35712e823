"""A recall on paper: the report of a case, at any time and when it is closed, and the letters.

What stands in them follows 21 CFR 7.46, 7.49 and 7.53 (public copies seen). A letter says what is
called back and what to do, and names nobody's guilt; its wording is agreed with the authority.
"""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.list_paper import ListColumn, ListPaper, ListTable, list_pdf, lists_pdf
from honeyledger.domain.moments import Moment, format_day, format_moment
from honeyledger.domain.units import MassUnit, format_mass, format_number, format_share
from honeyledger.services.recall_rows import Consignee, RecallCase, RecallPaper, ScopeLot

AGREE = "Scope, class and wording are agreed with the authority; this report decides none of them."
DRILL = "This is a drill: nothing is called back."


def recall_report(
    case: RecallCase,
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
    mark: RecallPaper | None = None,
    copies: int = 1,
) -> bytes:
    """Print the report of a case as it stands.

    Args:
        mark: what tells this print from another.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    done = "Closing report" if case.is_closed else "Status report"
    listed = ListPaper(
        house=case.house,
        title=f"{done}: {case.sort}",
        of=case.code,
        head=f"{case.entries} {case.digest[:12].upper()}",
        facts=_facts(case, unit),
        says=_says(case),
        tables=(
            _scope(case, unit),
            _consignees(case, unit),
            _details(case),
            _narrowed(case),
            _timeline(case),
        ),
        sign=("Signed by", "Agreed with", "Day and time"),
    )
    return list_pdf(_marked(listed, mark), typefaces, size=paper, copies=copies)


def recall_letters(
    case: RecallCase,
    rows: Sequence[Consignee],
    typefaces: Typefaces,
    *,
    paper: str = "a4",
    unit: MassUnit = "kg",
    mark: RecallPaper | None = None,
) -> bytes:
    """Print a letter with its slip for each of these customers, one after the other.

    Args:
        mark: what tells this print from another.

    Raises:
        Refusal: another size of paper, or a sign that cannot be printed.
    """
    letters = [_marked(_letter(case, one, unit), mark) for one in rows]
    return lists_pdf(letters, typefaces, size=paper)


def _marked(paper: ListPaper, mark: RecallPaper | None) -> ListPaper:
    return replace(paper, printed=mark.printed, again=mark.again) if mark else paper


def _facts(case: RecallCase, unit: MassUnit) -> tuple[tuple[str, str], ...]:
    return (
        ("About", case.about),
        ("Opened", format_moment(case.opened)),
        ("By", case.opened_by or "nobody named"),
        ("Stands on", case.stands_on),
        ("As of", format_day(case.today)),
        ("State", f"closed by {case.closed_by}" if case.is_closed else "open"),
        ("In the house", format_mass(case.here_g, unit)),
        ("With customers", format_mass(case.shipped_g, unit)),
        ("Accounted for", format_share(case.accounted / 10_000)),
        ("Customers told", _told(case)),
        ("Answered", f"{case.answered} of {case.to_tell}"),
        ("Back or destroyed", _part(case.recovered_g, case.sent_g, unit)),
    )


def _told(case: RecallCase) -> str:
    """Of how many; a drill tells nobody."""
    if case.sort == "drill" and not case.told:
        return f"none of {case.to_tell}: a drill"
    return f"{case.told} of {case.to_tell}"


def _part(grams: int, of_g: int, unit: MassUnit) -> str:
    share = f" ({format_share(grams / of_g)})" if of_g else ""
    return f"{format_mass(grams, unit)}{share}"


def _says(case: RecallCase) -> tuple[str, ...]:
    said = [DRILL] if case.sort == "drill" else []
    for name, text in (
        ("Found", case.found),
        ("Risk", case.risk),
        ("Result", case.result),
        ("Disposal", case.disposal),
    ):
        if text:
            said.append(f"{name}: {text}")
    said.append(f"Comes from: {', '.join(case.upstream)}.")
    return (*said, AGREE)


def _mass(grams: int, unit: MassUnit) -> str:
    """A mass without its unit, which stands in the head; nothing for none."""
    return format_mass(grams, unit).removesuffix(f" {unit}") if grams else ""


def _scope(case: RecallCase, unit: MassUnit) -> ListTable:
    return ListTable(
        "In scope, and where it is",
        (
            ListColumn("Lot", 2.35, is_code=True),
            ListColumn("What", 3.05),
            *(
                ListColumn(head, 1.28, unit, right=True)
                for head in ("Made", "Here", "Sent", "Went on", "Gone", "Missing")
            ),
            ListColumn("In it by", 4.75),
        ),
        [_lot_row(lot, unit) for lot in case.lots],
        (
            "In all",
            "",
            "",
            _mass(case.here_g, unit),
            _mass(case.shipped_g, unit),
            "",
            _mass(sum(_gone(lot) for lot in case.lots), unit),
            _mass(case.missing_g, unit),
            "",
        ),
        none="Nothing is in scope.",
    )


def _gone(lot: ScopeLot) -> int:
    return lot.sampled_g + lot.destroyed_g + lot.other_g


def _lot_row(lot: ScopeLot, unit: MassUnit) -> tuple[str, ...]:
    return (
        lot.code,
        lot.noun,
        *(
            _mass(grams, unit)
            for grams in (
                lot.made_g,
                lot.here_g,
                lot.shipped_g,
                lot.went_on_g,
                _gone(lot),
                lot.missing_g,
            )
        ),
        _way(lot.why),
    )


def _way(why: Sequence[str]) -> str:
    """The first and the last step, which have room; all of them are in the table to sort."""
    if not why:
        return "itself"
    return f"{why[0]} … {why[-1]}" if len(why) > 2 else " ".join(why)


def _consignees(case: RecallCase, unit: MassUnit) -> ListTable:
    nobody = "a drill" if case.sort == "drill" else "not yet"
    return ListTable(
        "Who has it",
        (
            ListColumn("Who", 3),
            *(ListColumn(head, 1.35, unit, right=True) for head in ("Has", "Back", "Open")),
            ListColumn("Jars", 1.1, right=True),
            ListColumn("Told", 3.4),
            ListColumn("Answered", 2.3),
            ListColumn("On hand", 1.4, unit, right=True),
            ListColumn("Destroyed", 1.75, unit, right=True),
        ),
        [_consignee_row(one, unit, nobody) for one in case.consignees],
        none="No customer has any of it, as far as the books know.",
    )


def _consignee_row(one: Consignee, unit: MassUnit, nobody: str) -> tuple[str, ...]:
    return (
        one.name,
        _mass(one.has_g, unit),
        _mass(one.back_g, unit),
        _mass(one.open_g, unit),
        format_number(one.has_pieces) if one.has_pieces else "",
        f"{_day_of(one.told[-1].at)}, {one.told[-1].how}" if one.told else nobody,
        _day_of(one.answered) if one.answered else "",
        "" if one.here_g is None else format_mass(one.here_g, unit).removesuffix(f" {unit}"),
        _mass(one.destroyed_g, unit),
    )


def _details(case: RecallCase) -> ListTable:
    """What each got by which paper, how they are reached, and what they proved."""
    rows = [
        (
            one.name,
            _where(one),
            ", ".join(f"{code} {_day(day)}" for code, day in one.notes),
            "; ".join(text for text in (one.proof, one.passed_on) if text),
        )
        for one in case.consignees
    ]
    return ListTable(
        "Papers and proofs",
        (
            ListColumn("Who", 2.5),
            ListColumn("Where", 3),
            ListColumn("By which papers", 4),
            ListColumn("Proof of destruction, passed on to", 4),
        ),
        rows,
        none="Nothing was sent.",
    )


def _narrowed(case: RecallCase) -> ListTable:
    return ListTable(
        "Taken out of the scope by name",
        (ListColumn("Lot", 2, is_code=True), ListColumn("By", 2), ListColumn("Why", 6)),
        [(row.code, row.by, row.reason) for row in case.narrowed],
        none="Nothing was.",
    )


def _timeline(case: RecallCase) -> ListTable:
    return ListTable(
        "What was done, and when",
        (ListColumn("When", 2.2), ListColumn("What", 6), ListColumn("By", 2)),
        [(format_moment(step.at), str(step.what), step.by) for step in case.timeline],
    )


def _letter(case: RecallCase, one: Consignee, unit: MassUnit) -> ListPaper:
    says = [DRILL] if case.sort == "drill" else []
    says += [
        f"We call back the honey listed here: {case.about}.",
        "Please stop selling and using it at once, keep it apart, and mark it. If you passed "
        "some on, tell those who have it, and tell us to whom.",
        "Do not throw it away yet: we fetch it, or agree with you in writing how it is destroyed "
        "and how that is proved.",
    ]
    if case.risk:
        says.append(f"What it may do, as judged so far: {case.risk}.")
    says.append(
        "Fill in the slip below and send it back today, also where you have nothing left. This "
        "letter confirms what was said by phone. The authority may call you."
    )
    return ListPaper(
        house=case.house,
        title="Withdrawal of honey" if case.sort == "withdrawal" else "Recall of honey",
        of=case.code,
        head=f"{case.entries} {case.digest[:12].upper()}",
        facts=(
            ("To", one.name),
            ("Where", _where(one)),
            ("Day", format_day(case.today)),
        ),
        says=tuple(says),
        tables=(
            ListTable(
                "What you were sent",
                (
                    ListColumn("Lot", 3, is_code=True),
                    ListColumn("On hand", 2, "count or weight"),
                    ListColumn("Sold or passed on", 2, "count or weight"),
                    ListColumn("To whom", 4),
                ),
                [(lot, "", "", "") for lot in one.lots],
            ),
            ListTable(
                "By which papers",
                (ListColumn("Dispatch note", 3, is_code=True), ListColumn("Sent", 6)),
                [(code, _day(day)) for code, day in one.notes],
                ("In all", f"{format_mass(one.has_g, unit)}{_jars(one)}"),
                none="See your own papers.",
            ),
        ),
        sign=("Received and read by", "Day and time", "Signature"),
    )


def _where(one: Consignee) -> str:
    said = (one.details.get(part, "") for part in ("place", "phone", "email"))
    return ", ".join(text for text in said if text)


def _jars(one: Consignee) -> str:
    return f", {format_number(one.has_pieces)} jars" if one.has_pieces else ""


def _day_of(moment: Moment) -> str:
    return format_moment(moment).rpartition(" ")[0]


def _day(day: str) -> str:
    return format_day(date.fromisoformat(day))
