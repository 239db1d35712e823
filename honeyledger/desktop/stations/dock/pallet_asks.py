"""What else happens at the dock, as small forms: pallets split, joined, counted; honey bought."""

from collections.abc import Callable, Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, Reading, Typing
from honeyledger.desktop.models.reading_asks import reading_form
from honeyledger.desktop.stations.dock.words import (
    BUY,
    CONTAINERS,
    COUNT,
    JOIN,
    SPLIT,
    SUPPLIERS,
    tr,
)
from honeyledger.domain.units import parse_count, parse_mass_g
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dock import Count, Join, Split
from honeyledger.services.house import Recorded

SUPERS = "a number of supers"


def pallet_forms(made: Callable[[str], object]) -> tuple[FormSpec, ...]:
    """The forms; `made` is told the tag or the drum that something new was given."""
    measured = reading_form(tr("Pallet or pull: scan it"))
    return (_split(made), _join(), _count(), measured, _buy(made))


def _pallet(part: int = 3) -> Ask:
    return Ask("pallet", tr("Pallet: scan it"), part=part)


def _only() -> Ask:
    return Ask("pull", tr("Only of one yard: its pull"), part=1)


def _split(made: Callable[[str], object]) -> FormSpec:
    def done(typed: FormTyped, recorded: Recorded, _reading: Reading) -> str:
        tag = next((code for code in recorded.given if code[:1] == "G"), "")
        made(tag)
        words = tr("{n} supers of {pallet} stand on {tag} now.")
        return words.format(n=typed.text("count"), pallet=typed.text("pallet"), tag=tag)

    return FormSpec(
        SPLIT,
        tr("Split"),
        tr("Scan the pallet; count the supers that go onto a new one."),
        tr("Split and print tag"),
        (
            (_pallet(), Ask("count", tr("Supers that go"), Typing.COUNT, part=2)),
            (_only(),),
        ),
        lambda typed, _reading: [Split(typed.text("pallet"), _supers(typed), typed.text("pull"))],
        done,
        scan="pallet",
    )


def _supers(typed: FormTyped) -> int:
    return parse_count(typed.text("count"), SUPERS, field="count")


def _join() -> FormSpec:
    return FormSpec(
        JOIN,
        tr("Join"),
        tr("Scan the pallet that is set onto another one, then the other one."),
        tr("Join them"),
        ((_pallet(1), Ask("onto", tr("Onto: scan it"))),),
        lambda typed, _reading: [Join(typed.text("pallet"), typed.text("onto"))],
        lambda typed, _done, _reading: tr("{pallet} stands on {onto} now.").format(
            pallet=typed.text("pallet"), onto=typed.text("onto")
        ),
        scan="pallet",
    )


def _count() -> FormSpec:
    return FormSpec(
        COUNT,
        tr("Count"),
        tr("Scan the pallet; type how many supers are on it."),
        tr("Keep the count"),
        (
            (_pallet(), Ask("count", tr("Supers on it"), Typing.COUNT, part=2)),
            (_only(),),
        ),
        lambda typed, _reading: [Count(typed.text("pallet"), _supers(typed), typed.text("pull"))],
        lambda typed, _done, _reading: tr("{pallet} has {n} supers.").format(
            pallet=typed.text("pallet"), n=typed.text("count")
        ),
        scan="pallet",
    )


def _buy(made: Callable[[str], object]) -> FormSpec:
    def done(typed: FormTyped, recorded: Recorded, _reading: Reading) -> str:
        code = recorded.codes[0] if recorded.codes else ""
        made(code)
        words = tr("{code} is bought in from {supplier}.")
        return words.format(code=code, supplier=typed.text("supplier"))

    return FormSpec(
        BUY,
        tr("Buy in"),
        tr("One drum of bought honey: who it is from, its weight, the papers it came with."),
        tr("Buy in and print label"),
        (
            (
                Ask("supplier", tr("Supplier"), Typing.CHOICE, offers=SUPPLIERS),
                Ask("supplier_lot", tr("Their lot")),
            ),
            (
                Ask("net_g", tr("Net"), Typing.MASS),
                Ask("gross_g", tr("or gross"), Typing.MASS),
                Ask("tare_g", tr("and tare"), Typing.MASS),
            ),
            (
                Ask("country", tr("Country")),
                Ask("floral", tr("Floral kind")),
                Ask("certificate", tr("Certificate")),
            ),
            (
                Ask("container", tr("In our drum, if so"), Typing.FREE, offers=CONTAINERS),
                Ask("owner", tr("Whose, if not ours")),
            ),
        ),
        _bought,
        done,
        scan="container",
    )


def _bought(typed: FormTyped, reading: Reading) -> Sequence[Purchase]:
    return [
        Purchase(
            typed.text("supplier"),
            Weight(*(_grams(typed, key, reading) for key in ("net_g", "gross_g", "tare_g"))),
            typed.text("supplier_lot"),
            typed.text("country"),
            typed.text("container"),
            typed.text("owner"),
            certificate=typed.text("certificate"),
            floral=typed.text("floral"),
        )
    ]


def _grams(typed: FormTyped, key: str, reading: Reading) -> int | None:
    text = typed.text(key)
    return parse_mass_g(text, reading.unit, field=key) if text else None
