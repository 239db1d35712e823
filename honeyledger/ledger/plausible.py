"""Figures and times that can be, but seldom are: noted, never refused, for the floor is right.

All bounds are common practice, no source.
"""

from honeyledger.domain.moments import format_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, format_number
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import key_of

FAR_WEIGHT = Sentence(
    "far-weight",
    "{code} weighed {before} by the books and {now} on the scale: check gross against tare, and "
    "pounds against kilograms.",
)
FAR_CUT = Sentence(
    "far-cut",
    "The books saw {before} of honey in what was cut of {pallet}, and pieces, drained honey, "
    "trimmings and rejects weigh {now} together: look for what was left out, and check pounds "
    "against kilograms.",
)
FAR_HEEL = Sentence(
    "far-heel",
    "The books saw {before} in {vessel} and the dip says {now}: dip again, or look for a drum or "
    "a load that was not written down.",
)
FAR_COUNT = Sentence(
    "far-count",
    "{pallet} had {before} supers by the books and has {now} now: count again, or look for a "
    "load or a split that was not written down.",
)
FAR_EMPTY = Sentence(
    "far-empty",
    "{each} for one empty super is unusual: check the tare of the pallet, and pounds against "
    "kilograms.",
)
FAR_SUPERS = Sentence(
    "far-supers",
    "{each} of honey a super is unusual, {usual} is usual: check the gross weight, the tare and "
    "the count.{slip}",
)
TOO_MUCH_HONEY = Sentence(
    "too-much-honey",
    "{gross} for {count} supers would be {each} of honey in each: no super holds that. Weigh the "
    "pallet again, or correct the count.",
)
FAR_PIECE = Sentence(
    "far-piece",
    "{pieces} pieces at {total} together are {mean} g each, and the product says {net} g: count "
    "them again, and weigh a few.",
)
LOADED_BEFORE = Sentence(
    "loaded-before-received",
    "{code} came in only on {moment}, after this load: correct one of the two times.",
)
SENT_BEFORE = Sentence(
    "sent-before-made",
    "{code} was made only on {moment}, after it was sent: correct one of the two times.",
)
WEIGHED_BEFORE = Sentence(
    "weighed-before-made",
    "{code} was made only on {moment}, after it was weighed: correct one of the two times.",
)
FAR_FOAM = Sentence(
    "far-foam",
    "{net} of foam was typed and the books saw {held} in {vessel}: check the weight, and pounds "
    "against kilograms.",
)
FOAM_PERMILLE, FOAM_G = 150, 10_000  # of what stands there; common practice, no source
AGAIN_PERMILLE = 50  # of a drum that was weighed before
FIRST_PERMILLE = 500  # of a drum that had its usual weight so far
HEEL_PERMILLE, HEEL_G = 200, 20_000
RUN_PERMILLE = 100  # of a run: what wet combs keep, and what estimates are off by
CAPPINGS_PERMILLE = 100  # of a run: the honey in its cappings
COUNT_PERMILLE = 333
EMPTY_G = (2_000, 15_000)  # a wet super with its frames, shallow to deep
SUPERS_PERMILLE = (300, 1_700)  # of the usual honey: pulled half drawn, or packed to the lid
MOST_IN_SUPER_G = 200_000  # three times what the largest box holds
SLIPS = (  # as it was read and as it was typed, and what the gross weight then is, in thousandths
    ("read in pounds and typed as kilograms", 454),
    ("read in kilograms and typed as pounds", 2_205),
)


def note_weight(b: Booking, lot: Lot, before_g: int, now_g: int, *, first: bool) -> None:
    """A drum that is weighed again seldom weighs much else."""
    if _far(before_g, now_g, FIRST_PERMILLE if first else AGAIN_PERMILLE):
        b.note(FAR_WEIGHT, code=lot.code, before=format_mass(before_g), now=format_mass(now_g))


def note_supers(b: Booking, what: str, before_g: int, now_g: int) -> None:
    """What is weighed of supers is seldom far from their estimate: a tare is easily mistaken."""
    if _far(before_g, now_g):
        before, now = format_mass(before_g), format_mass(now_g)
        b.note(FAR_WEIGHT, code=what, before=before, now=now)


def note_cut(b: Booking, tag: str, before_g: int, now_g: int) -> None:
    """What comes of cut supers is all that was in them, but for the estimate's error."""
    if _far(before_g, now_g):
        before, now = format_mass(before_g), format_mass(now_g)
        b.note(FAR_CUT, pallet=key_of(tag), before=before, now=now)


def note_receipt(b: Booking, gross_g: int, tare_g: int, count: int, usual_g: int) -> None:
    """What supers hold is seldom far from their boxes' usual honey.

    Args:
        usual_g: of all of them together; 0 where nobody has said.

    Raises:
        Refusal: no super can hold so much.
    """
    honey_g = gross_g - tare_g
    each = format_mass(honey_g // count)
    if honey_g > MOST_IN_SUPER_G * count:
        shown = format_mass(gross_g)
        raise Refusal(TOO_MUCH_HONEY, field="gross_g", gross=shown, count=count, each=each)
    if usual_g and not _is_usual(honey_g, usual_g):
        fitting = (
            f" It would fit if it was {slip}."
            for slip, permille in SLIPS
            if _is_usual(gross_g * permille // 1000 - tare_g, usual_g)
        )
        usual = format_mass(usual_g // count)
        b.note(FAR_SUPERS, each=each, usual=usual, slip=next(fitting, ""))


def _is_usual(honey_g: int, usual_g: int) -> bool:
    return SUPERS_PERMILLE[0] * usual_g <= honey_g * 1000 <= SUPERS_PERMILLE[1] * usual_g


def note_piece(b: Booking, net_g: int, pieces: int, declared_g: int) -> None:
    """Pieces of comb are cut to what the product says."""
    if declared_g and _far(declared_g * pieces, net_g):
        shown = {"total": format_mass(net_g), "net": format_number(declared_g)}
        b.note(FAR_PIECE, pieces=pieces, mean=format_number(net_g // pieces), **shown)


def note_heel(b: Booking, vessel: str, before_g: int, now_g: int, spread_g: int) -> None:
    """A dip far from the books says more of the books than of the vessel.

    Args:
        spread_g: what the run's estimates are usually off by.
    """
    if abs(now_g - before_g) > max(HEEL_G, spread_g) and _far(
        max(before_g, now_g), min(before_g, now_g)
    ):
        name = name_of(b.state, vessel)
        b.note(FAR_HEEL, vessel=name, before=format_mass(before_g), now=format_mass(now_g))


def note_foam(b: Booking, source: str, held_g: int, net_g: int) -> None:
    """Foam is a small part of what it stands on."""
    if net_g > FOAM_G and net_g * 1000 > held_g * FOAM_PERMILLE:
        shown = {"net": format_mass(net_g), "held": format_mass(held_g)}
        b.note(FAR_FOAM, vessel=name_of(b.state, source), **shown)


def usual_gap_g(in_g: int, *, cappings: bool) -> int:
    """How far from the books the vessels of a run may be for no other reason than its estimates.

    Args:
        in_g: the honey that went in, as estimated.
        cappings: whether some were weighed; else the books have their honey in the vessels.
    """
    return in_g * (RUN_PERMILLE + (0 if cappings else CAPPINGS_PERMILLE)) // 1000


def note_count(b: Booking, tag: str, before: int, now: int) -> None:
    """Supers do not come or go by themselves."""
    if before and _far(before, now, COUNT_PERMILLE):
        b.note(FAR_COUNT, pallet=key_of(tag), before=before, now=now)


def note_empties(b: Booking, net_g: int, count: int) -> None:
    """What one empty super weighs, from the weight of many."""
    each = net_g // count
    if not EMPTY_G[0] <= each <= EMPTY_G[1]:
        b.note(FAR_EMPTY, each=format_mass(each))


def note_order(b: Booking, lot: Lot, sentence: Sentence) -> None:
    """A lot was not there yet by the time that is said: one of the two times is wrong."""
    made = b.state.entry(lot.made_by)
    if made is not None and made.act.happened.at_ms - made.act.unsure_ms > _latest_ms(b):
        b.note(sentence, code=lot.code, moment=format_moment(made.act.happened))


def _latest_ms(b: Booking) -> int:
    return b.at_ms + b.act.unsure_ms


def _far(before: int, now: int, permille: int = HEEL_PERMILLE) -> bool:
    return abs(now - before) * 1000 > before * permille
