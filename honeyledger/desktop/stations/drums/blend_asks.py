"""A blend as a small form: what it should come to, its parts as planned and as weighed."""

from collections.abc import Sequence

from honeyledger.desktop.models.asked import Ask, FormSpec, FormTyped, LineTyped, Reading, Typing
from honeyledger.desktop.stations.drums.blend_plan import MOST, SPAN, wanted_of
from honeyledger.desktop.stations.drums.parts import (
    VESSELS,
    at_line,
    drum_ask,
    grams_of,
    page_of,
)
from honeyledger.desktop.stations.drums.words import tr
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import PURPOSES, Blend, Portion
from honeyledger.services.house import Recorded

BLEND = "blend"
ABOUT = "about"

NOT_WEIGHED_YET = Sentence(
    "part-not-weighed",
    "Of {code} {planned} is planned: type what the scale says, or empty the plan so that all of "
    "it goes in.",
)


def blend_form() -> FormSpec:
    """The form of a blend."""
    names = {"blend": tr("blend"), "cream": tr("cream"), "standardise": tr("even out")}
    return FormSpec(
        BLEND,
        tr("Blend"),
        tr("Scan the drums that could go in: the plan stays until it is poured."),
        tr("It is poured: keep the blend"),
        (
            (
                Ask("into", tr("Into the vessel"), Typing.CHOICE, offers=VESSELS, part=3),
                Ask(ABOUT, tr("Wanted: about"), Typing.MASS, part=2),
            ),
            (
                Ask(
                    "purpose",
                    tr("What for"),
                    Typing.BUTTONS,
                    buttons=tuple((key, names[key]) for key in PURPOSES),
                    usual=PURPOSES[0],
                ),
            ),
            (
                Ask(MOST, tr("Wanted: moisture to"), unit="%"),
                Ask(SPAN, tr("Colour, such as 30-44"), unit="mm"),
            ),
            (Ask("note", tr("Note")),),
            (Ask("despite", tr("Why held honey goes in, by name"), shown=_asks_why),),
            (drum_ask(tr("Next part: scan it"), "lot"),),
        ),
        _blended,
        lambda typed, done, reading: tr("{mass} are blended in {vessel}.").format(
            mass=_poured(done, reading),
            vessel=_vessel(typed.text("into"), reading),
        ),
        scan="lot",
        line=(
            Ask("planned", tr("planned, blank for all"), Typing.MASS, part=3),
            Ask("weighed", tr("Weighed"), Typing.MASS, part=2),
        ),
        fields={"parts": "lot", "source": "lot", "despite_hold": "despite"},
    )


def _asks_why(typed: FormTyped, reading: Reading) -> bool:
    """Whether something held would go in."""
    if reading.page is None:
        return False
    rows = (page_of(reading).row(line.code) for line in typed.lines)
    return any(row is not None and row.held for row in rows)


def _vessel(key: str, reading: Reading) -> str:
    return next((one.name for one in page_of(reading).vessels if one.code == key), key)


def _poured(done: Recorded, reading: Reading) -> str:
    grams = sum(
        p.grams for p in done.entries[0].postings if p.place.startswith("vessel/") and p.grams > 0
    )
    return format_mass(grams, reading.unit, 1)


def _blended(typed: FormTyped, reading: Reading) -> Sequence[Blend]:
    wanted_of(typed)  # what is wanted is no fact, but is not passed over either where it is none
    parts = tuple(_portion(line, reading.unit) for line in typed.lines)
    return [
        Blend(
            typed.text("into"),
            parts,
            typed.text("purpose") or PURPOSES[0],
            typed.text("note"),
            typed.text("despite"),
        )
    ]


def _portion(line: LineTyped, unit: MassUnit) -> Portion:
    planned = grams_of(line, "planned", unit, at_line("planned", line))
    weighed = grams_of(line, "weighed", unit, at_line("weighed", line))
    if weighed is None and planned is not None:
        shown = format_mass(planned, unit, 1)
        raise Refusal(
            NOT_WEIGHED_YET, field=at_line("weighed", line), code=line.code, planned=shown
        )
    if weighed is None:
        return Portion(line.code, whole=True)
    return Portion(line.code, Weight(net_g=weighed), planned)
