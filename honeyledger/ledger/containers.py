"""Drums and totes as things to fill: which one is meant, what it takes, what is in it already."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import code_in, find_lot, find_record
from honeyledger.ledger.mixing import Taken, also_in, is_late, widen
from honeyledger.ledger.places import DRUM, key_of, place
from honeyledger.ledger.sources import number_in, place_of

USUAL_G = 290_000  # a 55 US gallon drum, common practice, no source
MOST_G = 1_500_000  # a tote of 1,000 litres holds 1,420 kg; common practice, no source

OVER_LIMIT = Sentence(
    "over-limit",
    "{grams} does not go into {container}, which takes {limit} at most: check pounds against "
    "kilograms, and gross against tare.",
)
DRUM_FULL = Sentence(
    "drum-full",
    "{container} is already full: it holds {code} with {grams}, and its limit is {limit}. Take "
    "another container.",
)
TOP_UP_ASKS = Sentence(
    "top-up-asks",
    "{container} holds {code} with {grams}. Filling it on makes a new lot and {code}'s label "
    "void: say that you top it up, or take another container.",
)
WASHED_ASKS = Sentence(
    "washed-asks",
    "{container} held {code} before. Say whether it was washed since; if not, {code} stays in "
    "reach.",
)


@dataclass(frozen=True, slots=True)
class Container:
    """A drum or tote at its place; masses in grams, the tare None where nobody knows it.

    `limit_g` is where it counts as full, `most_g` what cannot be in it whatever the scale says.
    """

    place: str
    name: str
    usual_g: int
    limit_g: int
    most_g: int
    tare_g: int | None


def container_at(b: Booking, place: str) -> Container:
    """The container that is a place, by its record; a one-way drum has none."""
    mark = b.state.mark(place, "record")
    record: Mapping[str, Json] = mark.value if mark and isinstance(mark.value, Mapping) else {}
    usual = number_in(record, "usual_g", USUAL_G)
    tare = record.get("tare_g")
    return Container(
        place=place,
        name=str(record.get("name", "") or key_of(place)),
        usual_g=usual,
        limit_g=number_in(record, "limit_g", usual * 11 // 10),
        most_g=number_in(record, "limit_g", MOST_G),
        tare_g=tare if isinstance(tare, int) else None,
    )


def find_container(b: Booking, text: str, field: str = "container") -> Container:
    """The container by its name, number or code, or by the label of the drum lot in it."""
    code = code_in(b.state, text, field)
    if code is None or code.letter not in "DP":
        return container_at(b, find_record(b.state, DRUM, text, field)[0])
    return container_at(b, place_of(b, find_lot(b.state, text, "DP", field), field))


def make_ready(
    b: Booking,
    container: Container,
    arriving_g: int,
    *,
    guessed_g: int = 0,
    top_up: bool,
    washed: bool | None,
) -> Lot | None:
    """Check what the container holds or held; gives the closed lot that is topped up.

    Args:
        guessed_g: what of its content is a guess, and need not be there.

    Raises:
        Refusal: it is full; it holds a closed lot and nobody said to top it up; it held
            something and nobody said whether it was washed.
    """
    rows = b.standing(container.place)
    held = sum(row.grams for row in rows)
    if held:
        closed = closed_in(b, container.place)
        shown = {
            "container": container.name,
            "code": closed.code if closed else "honey",
            "grams": format_mass(held),
        }
        sure_g = held - guessed_g
        if sure_g + arriving_g > container.limit_g or sure_g >= container.limit_g:
            limit = format_mass(container.limit_g)
            raise Refusal(DRUM_FULL, field="container", limit=limit, **shown)
        if closed is not None and not top_up:
            raise Refusal(TOP_UP_ASKS, field="top_up", **shown)
        return closed
    check_fits(container, arriving_g)
    if rows and washed is None:
        last = rows[-1].lot.code
        raise Refusal(WASHED_ASKS, field="washed", container=container.name, code=last)
    if rows and washed and not is_late(b, [container.place]):
        _wash(b, container.place)
    return None


def check_fits(container: Container, grams: int) -> None:
    """No container holds more than fits into it, whatever the scale says."""
    if grams > container.most_g:
        raise Refusal(
            OVER_LIMIT,
            field="container",
            container=container.name if container.name != key_of(container.place) else "a drum",
            grams=format_mass(grams),
            limit=format_mass(container.most_g),
        )


def _wash(b: Booking, drum: str) -> None:
    """The margin runs across a wash: what was scanned in shortly before may have come after it."""
    rows = b.standing(drum)
    b.washes(drum)
    for row in rows:
        if b.margin_ms and row.since_ms > b.at_ms - b.margin_ms:
            b.comes(drum, row.lot.id)


def closed_in(b: Booking, drum: str) -> Lot | None:
    """The closed lot whose honey a container holds; none where it is empty, or waits for more.

    A drum that was poured into a tote which waits for more is not closed there.
    """
    rows = b.standing(drum)
    return next((row.lot for row in rows if row.grams and _is_closed_in(b, row.lot, drum)), None)


def _is_closed_in(b: Booking, lot: Lot, drum: str) -> bool:
    if lot.kind not in "DP":
        return False
    own = (lot.code, lot.attributes.get("container"))
    amended = None if key_of(drum) in own else b.state.mark(lot.code, "container")
    return key_of(drum) in own or bool(amended and amended.value == key_of(drum))


def is_filled_again(b: Booking, drum: str) -> bool:
    """Whether a container holds what was filled in after this late entry's honey was out again."""
    there = [row.since_ms for row in b.standing(drum) if row.grams]
    return bool(there) and min(there) > b.at_ms and is_late(b, [drum])


def stood_there(b: Booking, drum: str, home: str, parts: Sequence[int]) -> list[Taken]:
    """A late fill has in its reach, at 0 g, what stood in the container then, and since.

    So has one scanned within the margin after a wash: it may have been before. All this is put
    where the fill stands, which is `home`.
    """
    also = also_in(b, drum, b.at_ms - b.margin_ms) - set(parts)
    b.late_lots |= also
    for lot in sorted(also):
        b.comes(home, lot)
    return [Taken(lot, 0) for lot in sorted(also)]


def reach_others(b: Booking, drum: str, lots: Sequence[int]) -> None:
    """To entries that come late a container is a vessel: what was drawn since has these lots.

    So has a drum that was closed in it since: it may have been filled on top of them. A drum that
    was only poured into it has not: what came on top there never was in that drum.
    """
    widen(b, drum, lots)
    since_ms = b.at_ms - b.margin_ms
    for stay in b.state.stays(drum, since_ms):
        one = b.lot(stay.lot)
        made = b.state.entry(one.made_by) if _is_closed_in(b, one, drum) else None
        if made and made.act.happened.at_ms + made.act.unsure_ms >= since_ms:
            for lot in lots:
                b.late_origin(one.id, lot)


def home_again(b: Booking, lot: Lot) -> str:
    """Where a drum that comes back stands: in its container, where that held nothing since.

    Else it stands by itself.
    """
    amended = b.state.mark(lot.code, "container")
    key = str(amended.value if amended else lot.attributes.get("container", ""))
    container = place(DRUM, key)
    last = b.standing(container)[-1:] if key else []
    is_last = any(row.lot.id == lot.id and not row.grams for row in last)
    return container if is_last else place(DRUM, lot.code)
