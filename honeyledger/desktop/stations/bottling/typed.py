"""What stands in the bottling's form as typed, and the facts it says.

Reading is done by the parsers of the domain, so that the window and the terminal refuse the same
things in the same words.
"""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, parse_count, parse_mass_g, parse_mean_net_mg
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.services.bottling import BottlingSheet, jars_in
from honeyledger.services.papers import Serials

START, WEIGH, CHANGE, CLOSE, LABELS, LEFT = (
    *("start", "weigh", "change", "close"),
    *("labels", "left"),
)
KINDS = (START, WEIGH, CHANGE, CLOSE, LABELS, LEFT)
OF_OPEN = (WEIGH, CHANGE, CLOSE)
JARS = "a number of jars"
YES, NO = "yes", "no"

COUNTER_BEFORE_START = Sentence(
    "counter-before-start",
    "The counter stood at {began} when this bottling began and cannot be {counter} now. Read it "
    "again.",
)
NOT_SUCH_A_JAR = Sentence(
    "not-such-a-jar",
    "{weight} g is no jar of {net} g. Weigh it again, or type what the empty jar weighs.",
)
JAR_BELOW_EMPTY = Sentence(
    "jar-below-empty",
    "A jar of {gross} g is lighter than the empty one of {tare} g. Weigh it again.",
)
# The field of the form in which a refused fact was typed, where it goes by another name.
FIELD_OF = {
    "feed": "next",
    "mean_net_mg": "mean",
    "bottling": "lot",
    "code": "lot",
    "form": "label_as",
}
FIELD_OF_START = {"feed": "feed"}
FIELD_OF_LEFT = {"drum": "lot", "gross_g": "gross", "tare_g": "gross"}


@dataclass(frozen=True, slots=True)
class Typed:
    """The whole form; what is typed for one kind of happening stays while another is shown.

    Args:
        order: codes of the feeds that are to come, in their order.
        feed: at the start, one more of them; `next` is the one that runs next.
        about: how many jars are to be filled, where drums are to be proposed for them.
        counter: what the filler's counter says at the start, where it is not at 0.
        jars: what it says now; else `case`, the case being filled, of `case_size` jars.
        empty: whether the feed ran empty, "yes" or "no".
        mean: a mean net that is typed over the one of the jars weighed.
        in_line: whether jars are labelled as they are filled, "yes" or "no".
        packaging: lots of jars, lids and labels used, with commas between them.
        lot: whose labels are printed, or which drum's rest is weighed.
        label_as: as which label: the whole one, the front, the back or the lid seal.
    """

    kind: str = START
    product: str = ""
    order: tuple[str, ...] = ()
    feed: str = ""
    about: str = ""
    counter: str = ""
    jars: str = ""
    case: str = ""
    case_size: str = ""
    empty: str = ""
    next: str = ""
    mean: str = ""
    rejects: str = ""
    in_line: str = YES
    tare: str = ""
    weight: str = ""
    lot: str = ""
    first: str = ""
    last: str = ""
    gross: str = ""
    why: str = ""
    packaging: str = ""
    label_as: str = ""


# What of a form is typed for one bottling, and is over with it or with a change-over of it.
OF_CHANGE = ("jars", "case", "empty", "next", "mean", "why")
OF_BOTTLING = (*OF_CHANGE, "rejects", "weight", "packaging")


@dataclass(frozen=True, slots=True)
class AtFiller:
    """What this computer knows of an open bottling beside the ledger.

    Args:
        weighed: the jars weighed so far: how many were filled at the last change-over then, and
            the net of the jar, milligrams.
        counter: what the filler's counter said when it began.
    """

    weighed: tuple[tuple[int, int], ...] = ()
    counter: int = 0

    @property
    def weights_mg(self) -> tuple[int, ...]:
        """The net of every jar weighed."""
        return tuple(net_mg for _, net_mg in self.weighed)

    def running(self, sheet: BottlingSheet) -> tuple[int, ...]:
        """The net of the jars weighed since the last change-over."""
        return tuple(net_mg for jars, net_mg in self.weighed if jars == sheet.bottling.jars)

    def mean_mg(self, sheet: BottlingSheet) -> int | None:
        """The mean of those; None where none was weighed."""
        running = self.running(sheet)
        return (sum(running) * 2 + len(running)) // (2 * len(running)) if running else None


def counter_of(typed: Typed) -> int:
    """What the filler's counter says at the start; 0 where nothing is typed.

    Raises:
        Refusal: it is no count.
    """
    counter = typed.counter.strip()
    return parse_count(counter, "a counter's figure", field="counter") if counter else 0


def start_facts(typed: Typed) -> ChangeOver:
    """A bottling is begun from the first feed in the order."""
    first = next(iter((*typed.order, typed.feed)), "")
    return ChangeOver(product=typed.product, feed=first.strip(), despite_hold=typed.why)


def change_facts(typed: Typed, sheet: BottlingSheet, filler: AtFiller) -> ChangeOver:
    """The jars so far leave the feed, and the next ones come from another.

    Raises:
        Refusal: something in it cannot be read; its field names the fact.
    """
    return ChangeOver(
        sheet.bottling.code,
        feed=typed.next.strip(),
        jars=jars_of(typed, sheet, filler),
        mean_net_mg=_mean(typed, sheet, filler),
        empty=typed.empty == YES,
        despite_hold=typed.why,
    )


def close_facts(typed: Typed, sheet: BottlingSheet, filler: AtFiller) -> Bottle:
    """The bottling ends with what the counter says.

    Raises:
        Refusal: something in it cannot be read; its field names the fact.
    """
    rejects = typed.rejects.strip()
    return Bottle(
        sheet.bottling.code,
        jars_of(typed, sheet, filler),
        mean_net_mg=_mean(typed, sheet, filler),
        rejects=parse_count(rejects, JARS, field="rejects") if rejects else 0,
        in_line=typed.in_line != NO,
        empty=typed.empty == YES,
        despite_hold=typed.why,
        packaging=packaging_of(typed),
    )


def packaging_of(typed: Typed) -> tuple[str, ...]:
    """The lots of jars, lids and labels used, each once."""
    codes = typed.packaging.replace(";", ",").split(",")
    return tuple(dict.fromkeys(code.strip() for code in codes if code.strip()))


def jars_of(typed: Typed, sheet: BottlingSheet, filler: AtFiller) -> int:
    """How many jars are filled: by the counter, by the case in hand, or by the mass of a feed.

    A case in hand is half full, taken over many; so it is off by half a case at most.

    Raises:
        Refusal: none of them says.
    """
    if typed.jars.strip():
        counter = parse_count(typed.jars, JARS, field="jars")
        if counter < filler.counter:
            raise Refusal(
                COUNTER_BEFORE_START, field="jars", began=filler.counter, counter=counter
            )
        return counter - filler.counter
    if typed.case.strip():
        case = parse_count(typed.case, "a case number", least=1, field="case")
        size = parse_count(typed.case_size, JARS, least=1, field="case_size")
        return (case - 1) * size + size // 2
    if typed.empty == YES:
        return jars_by_mass(sheet, filler)
    return parse_count("", JARS, field="jars")


def jars_by_mass(sheet: BottlingSheet, filler: AtFiller, more_g: int = 0) -> int:
    """How many jars there are once the feed that runs, and so much more, is used up."""
    mean_mg = filler.mean_mg(sheet) or sheet.bottling.product.net_g * 1000
    return sheet.bottling.jars + jars_in(sheet.feed.grams, mean_mg) + jars_in(more_g, mean_mg)


def _mean(typed: Typed, sheet: BottlingSheet, filler: AtFiller) -> int | None:
    mean = typed.mean.strip()
    return parse_mean_net_mg(mean, field="mean_net_mg") if mean else filler.mean_mg(sheet)


def left_facts(typed: Typed, unit: MassUnit) -> Reweigh:
    """What is left in a drum is weighed.

    Raises:
        Refusal: the weight is none.
    """
    gross_g = parse_mass_g(typed.gross, unit, field="gross_g")
    return Reweigh(typed.lot.strip(), Weight(gross_g=gross_g))


def serials_of(typed: Typed) -> Serials:
    """Which jars' labels are wanted; without a last one, all that there are.

    Raises:
        Refusal: a serial is none.
    """
    first, last = typed.first.strip(), typed.last.strip()
    return Serials(
        parse_count(first, "a serial", least=1, field="first") if first else 1,
        parse_count(last, "a serial", least=1, field="last") if last else 0,
        typed.label_as,
    )


def jar_weighed(typed: Typed, net_g: int) -> int:
    """The net of the jar on the scale, milligrams: less the empty jar's weight, where it is typed.

    Raises:
        Refusal: it is no weight, or no weight of such a jar.
    """
    gross_mg = parse_mean_net_mg(typed.weight, field="weight")
    tare_mg = parse_mean_net_mg(typed.tare, field="tare") if typed.tare.strip() else 0
    net_mg = gross_mg - tare_mg
    if net_mg < 0:
        shown = {"gross": f"{gross_mg / 1000:.1f}", "tare": f"{tare_mg / 1000:.1f}"}
        raise Refusal(JAR_BELOW_EMPTY, field="weight", **shown)
    # The bounds are those of a mean net that the ledger takes.
    if not net_g * 500 <= net_mg <= net_g * 1500:
        raise Refusal(NOT_SUCH_A_JAR, field="weight", weight=f"{net_mg / 1000:.1f}", net=net_g)
    return net_mg


def field_of(refusal: Refusal, kind: str) -> str:
    """The field of the form that a refusal is about, "" for none."""
    names = {START: FIELD_OF_START, LEFT: FIELD_OF_LEFT}.get(kind, FIELD_OF)
    return names.get(refusal.field, refusal.field)


def cleared(typed: Typed, names: Sequence[str]) -> Typed:
    """The form with some of its fields empty again."""
    return replace(typed, **dict.fromkeys(names, ""))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Kept:
    """What a draft keeps: the form, the bottling in hand, what is known of the open ones."""

    typed: Typed = Typed()
    bottling: str = ""
    fillers: tuple[tuple[str, AtFiller], ...] = ()
    command: str = ""


def as_draft(kept: Kept) -> dict[str, object]:
    """A draft as it is written."""
    fillers = {code: asdict(filler) for code, filler in kept.fillers}
    return {
        "typed": asdict(kept.typed),
        "bottling": kept.bottling,
        "fillers": fillers,
        "command": kept.command,
    }


def from_draft(draft: Mapping[str, object]) -> Kept:
    """What a draft kept; what it does not know stays empty."""
    fillers = draft.get("fillers")
    rows = fillers.items() if isinstance(fillers, Mapping) else ()
    return Kept(
        _typed_from(draft.get("typed")),
        _text(draft, "bottling"),
        tuple((str(code), _filler_from(one)) for code, one in rows),
        _text(draft, "command"),
    )


def _typed_from(kept: object) -> Typed:
    if not isinstance(kept, Mapping):
        return Typed()
    texts = {one.name: _text(kept, one.name) for one in fields(Typed) if one.name != "order"}
    order = kept.get("order", ())
    codes = [one for one in order if isinstance(one, str)] if isinstance(order, list) else []
    typed = Typed(order=tuple(codes), **texts)
    kind = typed.kind if typed.kind in KINDS else START
    return replace(typed, kind=kind, in_line=typed.in_line or YES)


def _filler_from(kept: object) -> AtFiller:
    if not isinstance(kept, Mapping):
        return AtFiller()
    rows, counter = kept.get("weighed", ()), kept.get("counter", 0)
    weighed = [
        (jars, net_mg)
        for jars, net_mg in (rows if isinstance(rows, list) else ())
        if isinstance(jars, int) and isinstance(net_mg, int)
    ]
    return AtFiller(tuple(weighed), counter if isinstance(counter, int) else 0)


def _text(kept: Mapping[str, object], name: str) -> str:
    value = kept.get(name, "")
    return value if isinstance(value, str) else ""
