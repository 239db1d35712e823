"""What is done with jars behind the filler, as small forms: labelled, kept, packed, unpacked."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.reading_asks import reading_form
from honeyledger.desktop.stations.bottling.chunk_asks import chunk_form
from honeyledger.desktop.stations.bottling.rows import tr
from honeyledger.domain.units import format_number, parse_count, parse_mass_g
from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.ledger.verbs.jars import LabelJars
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.quality import Sample
from honeyledger.services.house import Recorded

LABEL, KEEP, PACK, UNPACK, CLAIMS = "label", "keep", "pack", "unpack", "claims"
LOTS, PRODUCTS = "lots", "products"
JARS = "a number of jars"
RETAINED = "retained"


def after_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order of the work behind the filler."""
    measured = reading_form(tr("Jar, tank or drum: scan it"), LOTS)
    return (_label(), _keep(), measured, _pack(), _unpack(), chunk_form(), _claims())


def _count(typed: FormTyped, key: str, what: str, field: str = "") -> int | None:
    text = typed.text(key)
    return parse_count(text, what, field=field or key) if text else None


# Labelled later.


def _label() -> FormSpec:
    return FormSpec(
        LABEL,
        tr("Label"),
        tr("Scan a jar of the lot that was labelled, then count the labels put on."),
        tr("They are labelled"),
        (
            (
                Ask("lot", tr("Jar lot: scan it"), Typing.FREE, offers=LOTS, part=3),
                Ask("jars", tr("Jars labelled"), Typing.COUNT, part=2),
            ),
            (Ask("product", tr("As, if not as bottled"), Typing.CHOICE, offers=PRODUCTS),),
            (
                Ask("roll_first", tr("Roll from")),
                Ask("roll_last", tr("to")),
                Ask("seal_first", tr("Seals from")),
                Ask("seal_last", tr("to")),
            ),
            (
                Ask("torn", tr("Torn"), part=2),
                Ask("packaging", tr("Lots of labels: scan them"), part=5, many=True),
            ),
        ),
        _label_facts,
        lambda typed, _done, _reading: tr("{n} jars of {lot} are labelled.").format(
            n=format_number(_count(typed, "jars", JARS) or 0), lot=typed.text("lot")
        ),
        scan="lot",
    )


def _label_facts(typed: FormTyped, _reading: Reading) -> Sequence[LabelJars]:
    return [
        LabelJars(
            typed.text("lot"),
            parse_count(typed.text("jars"), JARS, field="jars"),
            typed.text("product"),
            _count(typed, "roll_first", "a label's number"),
            _count(typed, "roll_last", "a label's number"),
            _count(typed, "torn", "a number of labels") or 0,
            typed.text("seal_first"),
            typed.text("seal_last"),
            typed.codes("packaging"),
        )
    ]


# Kept back.


def _keep() -> FormSpec:
    return FormSpec(
        KEEP,
        tr("Keep"),
        tr("Scan the jar that is kept back as a sample of its lot; say where it stands."),
        tr("It is kept"),
        (
            (Ask("lot", tr("Jar lot: scan it"), Typing.FREE, offers=LOTS),),
            (
                Ask("net", tr("Net, all of it"), Typing.MASS, unit="g", part=2),
                Ask("kept", tr("Kept at"), part=3),
            ),
        ),
        lambda typed, _reading: [
            Sample(
                (typed.text("lot"),) if typed.text("lot") else (),
                parse_mass_g(typed.text("net"), "g", field="net_g"),
                typed.text("kept"),
                RETAINED,
            )
        ],
        lambda typed, done, _reading: tr("{code} is kept of {lot}.").format(
            code=done.codes[-1], lot=typed.text("lot")
        ),
        scan="lot",
        fields={"net_g": "net", "kept_at": "kept", "lots": "lot"},
    )


# Claims judged again.


def _claims() -> FormSpec:
    return FormSpec(
        CLAIMS,
        tr("Claims"),
        tr("Scan a jar of the lot whose claims are judged again, after a record was put right."),
        tr("Judge them again"),
        (
            (Ask("lot", tr("Jar lot: scan it"), Typing.FREE, offers=LOTS),),
            (Ask("reason", tr("Reason")),),
        ),
        lambda typed, _reading: [JudgeClaims(typed.text("lot"), typed.text("reason"))],
        lambda typed, _done, _reading: tr("The claims of {lot} are judged again.").format(
            lot=typed.text("lot")
        ),
        scan="lot",
    )


# Cases and pallets.


def _pack() -> FormSpec:
    return FormSpec(
        PACK,
        tr("Pack"),
        tr("Scan a jar of each lot in a case; or the cases that stand on one pallet."),
        tr("They are packed"),
        (
            (
                Ask("code", tr("In it: scan it"), Typing.FREE, offers=LOTS, part=3),
                Ask("copies", tr("Cases like it"), Typing.COUNT, part=2),
            ),
        ),
        _pack_facts,
        lambda _typed, done, _reading: _packed_words(done),
        scan="code",
        line=(Ask("pieces", tr("jars in a case"), Typing.COUNT),),
        fields={"lines": "code"},
    )


def _pack_facts(typed: FormTyped, _reading: Reading) -> Sequence[Pack]:
    lines = []
    for line in typed.lines:
        pieces = line.text("pieces")
        count = parse_count(pieces, JARS, field="pieces") if pieces else 0
        lines.append(PackLine(line.code, count))
    copies = _count(typed, "copies", "a number of cases")
    return [Pack(tuple(lines), 1 if copies is None else copies)]


def _packed_words(done: Recorded) -> str:
    codes = [code for code in done.given if code]
    if len(codes) > 1:
        words = tr("{n} cases are packed: {first} to {last}.")
        return words.format(n=format_number(len(codes)), first=codes[0], last=codes[-1])
    return tr("{code} is packed.").format(code=codes[0] if codes else "")


def _unpack() -> FormSpec:
    return FormSpec(
        UNPACK,
        tr("Unpack"),
        tr("Scan the case or pallet that was opened."),
        tr("It is open"),
        (
            (Ask("code", tr("Case or pallet: scan it")),),
            (
                Ask(
                    "reason",
                    tr("Reason"),
                    Typing.BUTTONS,
                    buttons=tuple((word, word) for word in (tr("sold singly"), tr("broken"))),
                    usual=tr("sold singly"),
                ),
            ),
        ),
        lambda typed, _reading: [Unpack(typed.text("code"), typed.text("reason"))],
        lambda typed, _done, _reading: tr(
            "{code} is open: what was in it stands by itself."
        ).format(code=typed.text("code")),
        scan="code",
    )
