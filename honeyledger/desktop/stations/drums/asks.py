"""What is done with drums, as small forms: what each asks, and the facts it says."""

from collections.abc import Sequence
from typing import Any

from honeyledger.desktop.models.asked import (
    AT,
    Ask,
    FormSpec,
    FormTyped,
    Reading,
    Typing,
)
from honeyledger.desktop.models.room_asks import room_ask, room_first, stranger_ask
from honeyledger.desktop.stations.drums.blend_asks import blend_form
from honeyledger.desktop.stations.drums.parts import (
    DRUMS,
    HOLDS,
    at_line,
    drum_ask,
    grams_of,
    page_of,
)
from honeyledger.desktop.stations.drums.words import counted, tr
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_mass, parse_colour, parse_moisture
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.ledger.verbs.measuring import NOTHING_READ, Measure
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release, Sample
from honeyledger.ledger.verbs.stocktake import Move
from honeyledger.services.house import Recorded

READ, WEIGH, SAMPLE, MOVE = "read", "weigh", "sample", "move"
HOLD, FREE = "hold", "free"
IN_WORDS, WHOLE_HOLD, ONE_LOT = "other", "whole", "one"


def drum_forms() -> tuple[FormSpec, ...]:
    """The forms, in the order of the drum room's day."""
    return (_read(), _weigh(), _sample(), _move(), _hold(), _free(), blend_form())


# Readings, as a grid.


def _read() -> FormSpec:
    return FormSpec(
        READ,
        tr("Read"),
        tr("Scan the drums in the order of their sample pots; read the pots, today or tomorrow."),
        tr("Keep the readings"),
        ((drum_ask(tr("Next pot: scan its drum"), "lot"),),),
        _measures,
        lambda _typed, done, _reading: counted(
            len(done.entries), tr("One drum is read."), tr("{n} drums are read.")
        ),
        scan="lot",
        line=(
            Ask("moisture", tr("moisture"), unit="%", part=3),
            Ask("colour", tr("Colour"), unit="mm", part=2),
        ),
    )


def _measures(typed: FormTyped, _reading: Reading) -> Sequence[Measure]:
    """A reading a pot; pots that nobody has read yet are left out, and asked for again."""
    found = []
    for line in typed.lines:
        moisture, colour = line.text("moisture"), line.text("colour")
        if moisture or colour:
            found.append(
                Measure(
                    line.code,
                    parse_moisture(moisture, field=at_line("moisture", line))
                    if moisture
                    else None,
                    parse_colour(colour, field=at_line("colour", line)) if colour else None,
                )
            )
    if not found:
        code = typed.lines[0].code if typed.lines else ""
        raise Refusal(NOTHING_READ, field=f"moisture{AT}{code}" if code else "lot")
    return found


# On the scale.


def _weigh() -> FormSpec:
    return FormSpec(
        WEIGH,
        tr("Weigh"),
        tr("Scan the drum on the scale: weighed again, or for the first time."),
        tr("Keep the weight"),
        (
            (drum_ask(tr("Drum: scan it")),),
            (
                Ask("gross", tr("Gross"), Typing.MASS),
                Ask("tare", tr("Tare, blank as known"), Typing.MASS),
                Ask("net", tr("or net"), Typing.MASS),
            ),
        ),
        _reweigh,
        lambda typed, done, reading: tr("{code} is weighed: {mass}.").format(
            code=_called(typed.text("drum"), reading), mass=_stands(done, typed, reading)
        ),
        scan="drum",
        fields={"gross_g": "gross", "tare_g": "tare", "net_g": "net", "lot": "drum"},
    )


def _reweigh(typed: FormTyped, reading: Reading) -> Sequence[Reweigh]:
    unit = reading.unit
    weight = Weight(
        grams_of(typed, "net", unit, "net_g"),
        grams_of(typed, "gross", unit, "gross_g"),
        grams_of(typed, "tare", unit, "tare_g"),
    )
    return [Reweigh(typed.text("drum"), weight)]


def _stands(done: Recorded, typed: FormTyped, reading: Reading) -> str:
    """What stands in a drum after it was weighed: what was there, and the gap just found."""
    row = page_of(reading).row(typed.text("drum"))
    gap = sum(p.grams for p in done.entries[0].postings if p.place.startswith("drum/"))
    return format_mass((row.grams if row else 0) + gap, reading.unit, 1)


def _called(text: str, reading: Reading) -> str:
    row = page_of(reading).row(text)
    return row.code if row else text


# Samples and places.


def _sample() -> FormSpec:
    return FormSpec(
        SAMPLE,
        tr("Sample"),
        tr("Scan each drum the sample is of; say its weight and where it is kept."),
        tr("Take the sample"),
        (
            (drum_ask(tr("Drums: scan each"), "lots", many=True),),
            (
                Ask("net", tr("Weight, all together"), Typing.MASS, unit="g", part=2),
                Ask("kept", tr("Kept at"), part=3),
            ),
            (Ask("purpose", tr("For")),),
        ),
        lambda typed, _reading: [
            Sample(
                typed.codes("lots"),
                grams_of(typed, "net", "g", "net_g") or 0,
                typed.text("kept"),
                typed.text("purpose"),
            )
        ],
        lambda _typed, done, _reading: tr("Sample {code} is taken.").format(code=done.codes[-1]),
        scan="lots",
        fields={"net_g": "net"},
    )


def _move() -> FormSpec:
    return FormSpec(
        MOVE,
        tr("Move"),
        tr("Scan what was carried, then say the room and the row where it stands now."),
        tr("They stand there"),
        (
            (drum_ask(tr("Drums: scan each"), "codes", many=True),),
            (
                room_ask(part=3),
                Ask("row", tr("Row"), part=2),
            ),
            (stranger_ask(),),
        ),
        lambda typed, reading: [
            *room_first(typed, reading),
            Move(typed.codes("codes"), typed.text("room"), typed.text("row")),
        ],
        lambda typed, _done, _reading: counted(
            len(typed.codes("codes")), tr("One drum was moved."), tr("{n} drums were moved.")
        ),
        scan="codes",
    )


# Holds.


def _hold() -> FormSpec:
    reasons = (tr("taste"), tr("wet"), tr("lab"))
    return FormSpec(
        HOLD,
        tr("Hold"),
        tr("Scan the drum. What is made of it is held too, and nothing held leaves the house."),
        tr("Put it on hold"),
        (
            (drum_ask(tr("Drum: scan it"), "target"),),
            (_reason(tuple((word, word) for word in reasons)),),
            (Ask("words", tr("In a word or two"), shown=_says_other),),
        ),
        lambda typed, _reading: [PutOnHold(typed.text("target"), _why(typed))],
        lambda typed, _done, reading: tr("{code} is on hold.").format(
            code=_called(typed.text("target"), reading)
        ),
        scan="target",
    )


def _reason(buttons: tuple[tuple[str, str], ...]) -> Ask:
    other = (IN_WORDS, tr("other"))
    return Ask("reason", tr("Reason"), Typing.BUTTONS, buttons=(*buttons, other))


def _says_other(typed: FormTyped, _reading: Reading) -> bool:
    return typed.text("reason") == IN_WORDS


def _why(typed: FormTyped) -> str:
    """The reason as it is recorded."""
    reason = typed.text("reason")
    return typed.text("words") if reason == IN_WORDS else reason


def _is_one(typed: FormTyped, _reading: Reading | None = None) -> bool:
    return typed.text("what") == ONE_LOT


def _is_bought(typed: FormTyped, reading: Reading) -> bool:
    """Whether a hold is on bought-in honey, which papers free it of."""
    if _is_one(typed) or reading.page is None:
        return False
    hold = typed.text("hold")
    targets = {row.number: row.target for row in page_of(reading).holds}
    return targets.get(hold, hold).startswith("P")


def _two(_typed: FormTyped, reading: Reading) -> bool:
    """Whether two people free what is on hold in this house."""
    return reading.page is not None and page_of(reading).two_free


def _free() -> FormSpec:
    return FormSpec(
        FREE,
        tr("Free"),
        tr("End a hold, or free one drum of a hold that stays. It takes a name and a reason."),
        tr("Free it"),
        (
            (Ask("hold", tr("Hold"), Typing.FREE, offers=HOLDS),),
            (
                Ask(
                    "what",
                    tr("What is freed"),
                    Typing.BUTTONS,
                    buttons=((WHOLE_HOLD, tr("all of it")), (ONE_LOT, tr("one drum"))),
                    usual=WHOLE_HOLD,
                ),
            ),
            (Ask("lot", tr("Drum: scan it"), Typing.FREE, offers=DRUMS, shown=_is_one),),
            (Ask("result", tr("What was found"), shown=_is_one),),
            (
                Ask("reason", tr("Reason"), part=2),
                Ask("second", tr("Who agrees"), shown=_two),
            ),
            (
                Ask("certificate", tr("Certificate"), shown=_is_bought),
                Ask("supplier_lot", tr("Supplier's lot"), shown=_is_bought),
                Ask("country", tr("Country"), shown=_is_bought),
            ),
        ),
        _freed,
        lambda typed, _done, reading: (
            tr("{code} is free of the hold, which stays on the rest.").format(
                code=_called(typed.text("lot"), reading)
            )
            if _is_one(typed)
            else tr("The hold is ended.")
        ),
        scan="lot",
    )


def _freed(typed: FormTyped, _reading: Reading) -> Sequence[Any]:
    hold, reason = typed.text("hold"), typed.text("reason")
    if _is_one(typed):
        words = typed.text("result"), reason, typed.text("second")
        return [Clear(typed.text("lot"), hold, *words)]
    rest = [typed.text(key) for key in ("certificate", "supplier_lot", "country", "second")]
    return [Release(hold, reason, *rest)]
