"""What else happens on the floor, as small forms: foam, draws, drums closed, wax, comb."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.reading_asks import MEASURE, READ, reading_form
from honeyledger.desktop.stations.extraction.settle_asks import SETTLE, settle_form
from honeyledger.desktop.stations.extraction.stop_asks import STOP, stop_form
from honeyledger.domain.units import parse_count, parse_mass_g, parse_temperature
from honeyledger.ledger.sources import TO_FOLLOW, Weight
from honeyledger.ledger.verbs.by_products import Cut, Melt
from honeyledger.ledger.verbs.drums import Bung, Fill, Skim
from honeyledger.ledger.verbs.owners import Pool

SKIM, DRAW, BUNG, MELT, CUT, POOL = "skim", "draw", "bung", "melt", "cut", "pool"
VESSELS, CONTAINERS, PRODUCTS, RUNS = "vessels", "containers", "products", "runs"
# Which codes each form's scanned answer takes.
TAKEN = {
    SKIM: "E",
    DRAW: "EDWP",
    BUNG: "E",
    MEASURE: READ,
    MELT: "E",
    CUT: "G",
    POOL: "R",
    SETTLE: "D",
    STOP: "E",
}


def tr(text: str) -> str:
    """A text of the extraction floor."""
    return QCoreApplication.translate("extraction", text)


def more_forms() -> tuple[FormSpec, ...]:
    """The forms, those of every day first."""
    measured = reading_form(tr("Pallet, tank or drum: scan it"), VESSELS)
    after = (_melt(), _cut(), _pool(), settle_form())
    return (_skim(), stop_form(), _draw(), _bung(), measured, *after)


def _grams(typed: FormTyped, key: str, reading: Reading) -> int:
    text = typed.text(key)
    return parse_mass_g(text, reading.unit, field=key) if text else 0


def _mass(key: str, label: str, part: int = 1) -> Ask:
    return Ask(key, label, Typing.MASS, part=part)


def _vessel(key: str, label: str, part: int = 1) -> Ask:
    return Ask(key, label, Typing.CHOICE, offers=VESSELS, part=part)


def _held(scanned: str) -> Ask:
    """Asked of a person only where something is named."""
    return Ask(
        "despite_hold",
        tr("If it is on hold: why it may go on"),
        shown=lambda typed, _reading: bool(typed.text(scanned)),
    )


def _skim() -> FormSpec:
    return FormSpec(
        SKIM,
        tr("Skim"),
        tr("Foam that was skimmed off and thrown away: where from, and its weight."),
        tr("Book the foam"),
        ((_vessel("source", tr("Skimmed off"), 3), _mass("net_g", tr("Foam, net"), 2)),),
        lambda typed, reading: [Skim(typed.text("source"), _grams(typed, "net_g", reading))],
        lambda typed, _done, _reading: tr("Foam is booked."),
        scan="source",
    )


def _draw() -> FormSpec:
    return FormSpec(
        DRAW,
        tr("Draw"),
        tr("Honey that goes into another vessel: a tank drawn on, a barrel or drum poured in."),
        tr("Draw it over"),
        (
            (
                Ask("source", tr("From: scan it"), Typing.FREE, offers=VESSELS),
                _vessel("into", tr("Into")),
            ),
            (_mass("net_g", tr("Net, blank for all of it")),),
            (_held("source"),),
        ),
        _drawn,
        lambda typed, _done, _reading: tr("It is drawn over."),
        scan="source",
    )


def _drawn(typed: FormTyped, reading: Reading) -> Sequence[Fill]:
    grams = _grams(typed, "net_g", reading)
    return [
        Fill(
            typed.text("source"),
            Weight(net_g=grams) if grams else TO_FOLLOW,
            into=typed.text("into"),
            whole=not typed.text("net_g"),
            despite_hold=typed.text("despite_hold"),
        )
    ]


def _bung() -> FormSpec:
    return FormSpec(
        BUNG,
        tr("Bung"),
        tr("A drum that was filled part by part is closed: scan it."),
        tr("Close the drum"),
        (
            (
                Ask("container", tr("Drum: scan it"), Typing.FREE, offers=CONTAINERS, part=2),
                Ask("seal", tr("Seal, if one is put on")),
            ),
        ),
        lambda typed, _reading: [Bung(typed.text("container"), typed.text("seal"))],
        lambda typed, done, _reading: tr("Drum {code} is closed.").format(
            code=done.codes[-1] if done.codes else typed.text("container")
        ),
        scan="container",
    )


def _melt() -> FormSpec:
    return FormSpec(
        MELT,
        tr("Melt"),
        tr("Hot wax scalds and burns: never over a flame. Honey from under it is heated honey."),
        tr("Book the melt"),
        (
            (
                _vessel("vessel", tr("Melter"), 3),
                Ask("temperature", tr("Hottest"), unit="°C", part=2),
            ),
            (
                _mass("wax_g", tr("Wax")),
                _mass("honey_g", tr("Honey")),
                _mass("residue_g", tr("Thrown away")),
            ),
            (
                _vessel("into", tr("Honey into, if not apart")),
                Ask(
                    "goes_on",
                    tr("The melter is"),
                    Typing.BUTTONS,
                    buttons=(("no", tr("empty")), ("yes", tr("not yet"))),
                    usual="no",
                ),
            ),
            (_held("vessel"),),
        ),
        _melted,
        lambda typed, _done, _reading: tr("The melt is booked."),
        scan="vessel",
    )


def _melted(typed: FormTyped, reading: Reading) -> Sequence[Melt]:
    degrees = typed.text("temperature")
    return [
        Melt(
            typed.text("vessel"),
            _grams(typed, "wax_g", reading),
            _grams(typed, "honey_g", reading),
            _grams(typed, "residue_g", reading),
            typed.text("into"),
            parse_temperature(degrees) if degrees else None,
            typed.text("goes_on") == "yes",
            typed.text("despite_hold"),
        )
    ]


def _cut() -> FormSpec:
    return FormSpec(
        CUT,
        tr("Comb"),
        tr("Scan the pallet whose comb was cut; count and weigh the pieces packed."),
        tr("Book the comb"),
        (
            (
                Ask("pallet", tr("Pallet: scan it"), part=3),
                Ask("count", tr("Supers, blank for all"), Typing.COUNT, part=2),
            ),
            (Ask("pieces", tr("Pieces"), Typing.COUNT), _mass("net_g", tr("Net, all together"))),
            (Ask("product", tr("Sold as"), Typing.CHOICE, offers=PRODUCTS),),
            (_mass("drained_g", tr("Ran out")), _vessel("into", tr("into"))),
            (
                _mass("trimmings_g", tr("Trimmings")),
                _vessel("trimmings_into", tr("into, if not apart")),
            ),
            (_mass("rejects_g", tr("Pieces thrown away")),),
            (_held("pallet"),),
        ),
        _combs,
        lambda typed, done, _reading: tr("Comb {code} is packed: {n} pieces.").format(
            code=next((code for code in done.codes if code[:1] == "K"), ""), n=typed.text("pieces")
        ),
        scan="pallet",
    )


def _combs(typed: FormTyped, reading: Reading) -> Sequence[Cut]:
    count = typed.text("count")
    return [
        Cut(
            typed.text("pallet"),
            parse_count(typed.text("pieces"), "a number of pieces", field="pieces"),
            _grams(typed, "net_g", reading),
            parse_count(count, "a number of supers", field="count") if count else None,
            "",
            typed.text("product"),
            _grams(typed, "drained_g", reading),
            typed.text("into"),
            _grams(typed, "trimmings_g", reading),
            typed.text("trimmings_into"),
            _grams(typed, "rejects_g", reading),
            typed.text("despite_hold"),
        )
    ]


def _pool() -> FormSpec:
    return FormSpec(
        POOL,
        tr("Pool"),
        tr("Owners agreed that this run's honey is shared: by which agreement."),
        tr("Pool the run"),
        (
            (
                Ask("run", tr("Run"), Typing.CHOICE, offers=RUNS, part=2),
                Ask("agreement", tr("Agreement"), part=3),
            ),
        ),
        lambda typed, _reading: [Pool(typed.text("agreement"), typed.text("run"))],
        lambda typed, _done, _reading: tr("Run {run} is pooled.").format(run=typed.text("run")),
        scan="run",
    )
