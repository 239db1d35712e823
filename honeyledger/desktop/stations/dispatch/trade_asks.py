"""Bulk trade as small forms: samples judged, the buyer's scale, empties, title, complaints."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.complaint_asks import COMPLAINT, complaint_form
from honeyledger.desktop.models.complaint_asks import TAKEN as COMPLAINT_TAKEN
from honeyledger.desktop.stations.dispatch.rows import counted, tr
from honeyledger.domain.units import parse_mass_g
from honeyledger.ledger.offers import APPROVED, REFUSED
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.trade import Approve, BuyersWeight, Empties, TransferTitle

JUDGED, SCALE, EMPTIES, TITLE = "judged", "scale", "empties", "title"
CUSTOMERS, PARTIES, NOTES, LOTS = "customers", "parties", "notes", "lots"
# Which codes each form's scanned answer takes.
TAKEN = {JUDGED: "X", SCALE: "NDPWK", EMPTIES: "E", TITLE: "DPW", COMPLAINT: COMPLAINT_TAKEN}


def trade_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order in which a load goes."""
    return (_judged(), _scale(), _empties(), _title(), complaint_form())


def _customer(part: int = 1) -> Ask:
    return Ask("customer", tr("Customer"), Typing.CHOICE, offers=CUSTOMERS, part=part)


def _judged() -> FormSpec:
    verdicts = ((APPROVED, tr("approved")), (REFUSED, tr("refused")))
    return FormSpec(
        JUDGED,
        tr("Judged"),
        tr("Scan the sample; say what the customer thinks of it."),
        tr("Record the verdict"),
        (
            (Ask("sample", tr("Sample: scan it"), part=3), _customer(4)),
            (Ask("verdict", tr("Verdict"), Typing.BUTTONS, buttons=verdicts, usual=APPROVED),),
            (
                Ask(
                    "reason",
                    tr("Why it was refused"),
                    shown=lambda typed, _reading: typed.text("verdict") == REFUSED,
                ),
            ),
            (Ask("reference", tr("Their report or letter")),),
        ),
        lambda typed, _reading: [
            Approve(
                typed.text("sample"),
                typed.text("verdict"),
                typed.text("reason"),
                typed.text("reference"),
                typed.text("customer"),
            )
        ],
        lambda typed, _done, _reading: (
            tr("Sample {code} is refused.")
            if typed.text("verdict") == REFUSED
            else tr("Sample {code} is approved.")
        ).format(code=typed.text("sample")),
        scan="sample",
    )


def _scale() -> FormSpec:
    return FormSpec(
        SCALE,
        tr("Scale"),
        tr("Scan the note or the drum; type what the buyer's ticket says."),
        tr("Record the buyer's weight"),
        (
            (
                Ask("of", tr("Note or drum: scan it"), Typing.FREE, offers=NOTES, part=3),
                Ask("reference", tr("Ticket"), part=2),
            ),
            (
                Ask("net_g", tr("Net"), Typing.MASS),
                Ask("gross_g", tr("or gross"), Typing.MASS),
                Ask("tare_g", tr("and tare"), Typing.MASS),
            ),
            (_customer(),),
        ),
        _scale_facts,
        lambda typed, _done, _reading: tr("The buyer's scale counts for {code}.").format(
            code=typed.text("of")
        ),
        scan="of",
    )


def _scale_facts(typed: FormTyped, reading: Reading) -> Sequence[BuyersWeight]:
    return [
        BuyersWeight(
            typed.text("of"),
            Weight(*(_grams(typed, key, reading) for key in ("net_g", "gross_g", "tare_g"))),
            typed.text("customer"),
            typed.text("reference"),
        )
    ]


def _grams(typed: FormTyped, key: str, reading: Reading) -> int | None:
    text = typed.text(key)
    return parse_mass_g(text, reading.unit, field=key) if text else None


def _empties() -> FormSpec:
    return FormSpec(
        EMPTIES,
        tr("Empties"),
        tr("Say whose they were; scan each container that came back empty."),
        tr("They are back"),
        (
            (_customer(),),
            (Ask("containers", tr("Containers: scan them"), many=True),),
            (Ask("kept", tr("Or they never come back: why")),),
        ),
        lambda typed, _reading: [
            Empties(typed.text("customer"), typed.codes("containers"), typed.text("kept"))
        ],
        lambda typed, _done, _reading: _empties_words(typed),
        scan="containers",
    )


def _empties_words(typed: FormTyped) -> str:
    number, gone = len(typed.codes("containers")), bool(typed.text("kept"))
    one, many = tr("1 container is back."), tr("{n} containers are back.")
    if gone:
        one, many = tr("1 container is written off."), tr("{n} containers are written off.")
    return counted(number, one, many)


def _title() -> FormSpec:
    return FormSpec(
        TITLE,
        tr("Title"),
        tr("Scan the drums whose title goes over; they stay where they stand."),
        tr("Title goes over"),
        (
            (Ask("lots", tr("Drums: scan them"), many=True),),
            (
                Ask("owner", tr("Whose from now on"), Typing.CHOICE, offers=PARTIES),
                Ask("document", tr("Invoice or contract")),
            ),
            (
                Ask(
                    "despite_hold",
                    tr("On hold: why title goes over"),
                    shown=lambda typed, _reading: bool(typed.text("lots")),
                ),
            ),
        ),
        lambda typed, _reading: [
            TransferTitle(
                typed.codes("lots"),
                typed.text("owner"),
                typed.text("document"),
                typed.text("despite_hold"),
            )
        ],
        lambda typed, _done, _reading: tr("Title of {lots} went over to {owner}.").format(
            lots=typed.text("lots"), owner=typed.text("owner")
        ),
        scan="lots",
    )
