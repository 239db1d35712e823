"""From codes to the rows that are printed: tags, drum and jar labels, yard codes, badges.

Both faces print through here, so that a label says the same whoever asked for it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

from honeyledger.domain.claims import FLORAL, Ruling
from honeyledger.domain.codes import Code, JarCode, make_jar_code
from honeyledger.domain.colour import class_of
from honeyledger.domain.gs1 import digital_link
from honeyledger.domain.label_content import (
    ADDRESS,
    BEST_BEFORE,
    CAUTION,
    COLOUR,
    GRADE,
    LOT,
    NAME,
    ORIGIN,
    PARTY,
    STORAGE,
    STYLE,
    Market,
    heights_of,
)
from honeyledger.domain.moments import day_of, house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.claims import claims_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import held_among
from honeyledger.ledger.lookup import LOT_NOUNS, find_lot, find_record, read_code, refuse_unknown
from honeyledger.ledger.places import PALLET, YARD, place
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.services.claims import refuse_claims
from honeyledger.services.holding import (
    hold_sentence,
    last_recorded_day,
    name_in,
    own_reading,
    reading,
)
from honeyledger.services.label_content import LabelContent, content_warnings, label_content
from honeyledger.services.label_forms import PlainTag
from honeyledger.services.label_marks import LabelWarning, label_warnings
from honeyledger.services.pack_labels import PackLabel, pack_label
from honeyledger.services.papers import (
    ALL_JARS,
    Badge,
    DrumLabel,
    JarLabel,
    PalletTag,
    PulledLine,
    Serials,
    YardSheetTag,
)
from honeyledger.services.plain_tags import equipment_tag, sample_label
from honeyledger.services.retail_codes import RetailCode, retail_code_of
from honeyledger.services.store import View
from honeyledger.services.yards_page import due_of

HEAD_DIGITS = 12
HEADING = "Honey for further processing"
PaperRow = (
    PalletTag | DrumLabel | JarLabel | YardSheetTag | Badge | PackLabel | PlainTag | RetailCode
)

FOLLOW_LABEL = "Follow the label and your local code."
NO_LABEL = Sentence(
    "no-label",
    "There is no label for {code}: print those of pallets, drums, jars, cases, samples, yards, "
    "vessels, equipment and people.",
)
TAG_EMPTY = Sentence(
    "tag-empty",
    "{pallet} is empty now, so there is nothing to print on its tag. Name a pallet with supers.",
)
SERIALS_OUT = Sentence(
    "serials-out",
    "{code} has serials 1 to {jars}, not {first} to {last}. Choose serials it has.",
)


def label_rows(
    view: View, text: str, serials: Serials = ALL_JARS, markets: Sequence[Market] = ()
) -> Iterator[PaperRow]:
    """The label rows of a code: one, or one for each serial of a jar lot.

    Args:
        markets: what each market wants on a jar's label.

    Raises:
        Refusal: no such code, a kind of lot that has no label, serials it does not have, or a
            jar's label that lacks what its markets ask for.
    """
    code = read_code(view, text, "code")
    letter = code.lot.letter if isinstance(code, JarCode) else code.letter
    if letter == "G":
        yield _pallet(view, str(code))
    elif letter == "Y":
        yield _yard(view, str(code))
    elif letter in "CL":
        yield pack_label(view, text)
    elif letter == "O":
        yield _badge(view, str(code))
    elif letter in "DP":
        yield _drum(view, find_lot(view, text, field="code"))
    elif letter == "E":
        yield equipment_tag(view, str(code))
    elif letter == "X":
        yield sample_label(view, find_lot(view, text, field="code"))
    elif letter == "J":
        yield from _jars(view, code, serials, markets)
    else:
        noun = LOT_NOUNS.get(letter, "")
        raise Refusal(NO_LABEL, field="code", code=f"{code}, a {noun}" if noun else str(code))


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def house_stocks(view: View) -> dict[str, Mapping[str, Json]]:
    """The house's own label stocks, by name."""
    marks = view.marked("record", "stock/")
    records = [mark.value for mark in marks if isinstance(mark.value, Mapping)]
    return {_text(record, "name"): record for record in records}


def head_text(view: View) -> str:
    """The ledger's head as papers carry it: the entry's number and its digest's first digits."""
    head = view.head()
    return f"{head.entry} {head.digest[:HEAD_DIGITS].upper()}"


def _house(view: View) -> str:
    return name_in(view, "house", "Honey house")


def _text(record: Mapping[str, Json], name: str) -> str:
    return str(record.get(name, ""))


def _number(record: Mapping[str, Json], name: str) -> int | None:
    value = record.get(name)
    return value if isinstance(value, int) else None


def _pallet(view: View, tag: str) -> PalletTag:
    where = place(PALLET, tag)
    rows = view.standing(where)
    if not rows and view.is_given(tag):
        raise Refusal(TAG_EMPTY, field="code", pallet=tag)
    if not rows:
        raise refuse_unknown(view, tag, "code")
    pulls = tuple(
        PulledLine(
            _text(row.lot.attributes, "yard"),
            name_in(view, place(YARD, _text(row.lot.attributes, "yard"))),
            date.fromisoformat(_text(row.lot.attributes, "pulled")),
            row.pieces,
        )
        for row in rows
    )
    moistures = [reading(view, row.lot.code, "moisture") for row in rows]
    read = [moisture for moisture in moistures if moisture is not None]
    condition = view.mark(where, "condition")
    entry = view.entry(rows[0].lot.made_by)
    assert entry is not None
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    gross = _number(said, "gross_g") if condition and condition.entry == entry.id else None
    green = bool(condition and condition.value == "green")
    return PalletTag(
        code=tag,
        house=_house(view),
        received=day_of(entry.act.happened),
        pulls=pulls,
        condition=str(condition.value) if condition else "",
        gross_g=gross,
        moisture_hundredths=max(read) if read else None,
        dry_first=max(read) > dry_first_over(view) if read else green,
        head=head_text(view),
    )


def _yard(view: View, code: str) -> YardSheetTag:
    record = find_record(view, YARD, code, "code")[1]
    _, due = due_of(view, place(YARD, code), last_recorded_day(view))
    due = f"{due[:1].upper()}{due[1:]}. {FOLLOW_LABEL}" if due else ""
    name, where = _text(record, "name"), _text(record, "place")
    return YardSheetTag(code, name, _house(view), where, due=due)


def _badge(view: View, code: str) -> Badge:
    record = find_record(view, "operator", code, "code")[1]
    return Badge(code, _text(record, "name"), _house(view), _text(record, "role"))


def _drum(view: View, lot: Lot) -> DrumLabel:
    entry = view.entry(lot.made_by)
    assert entry is not None
    container = _text(lot.attributes, "container")
    amended = view.mark(lot.code, "container")
    if amended:
        container = str(amended.value)
    record = _record(view, f"drum/{container}")
    colour = own_reading(view, lot.code, "colour")
    filled = view.mark(lot.code, "filled_on")
    pending = view.mark(lot.code, "pending")
    here = [row.grams for row in view.holdings(lot.id) if row.grams > 0]
    net = None if pending and pending.value else (max(here) if here else lot.made_g)
    tare = _number(lot.attributes, "tare_g")
    if tare is None:
        tare = _number(record, "tare_g")
    return DrumLabel(
        code=lot.code,
        house=_house(view),
        heading=HEADING,
        container=_container(record, container),
        net_g=net,
        gross_g=net + tare if net is not None and tare is not None else None,
        tare_g=tare,
        filled=date.fromisoformat(str(filled.value)) if filled else day_of(entry.act.happened),
        run=_text(lot.attributes, "run"),
        moisture_hundredths=own_reading(view, lot.code, "moisture"),
        pfund_tenths=colour,
        colour=class_of(colour).name if colour is not None else "",
        forage=_forage(view, lot),
        season=str(lot.season),
        origin=_text(lot.attributes, "country") or _text(_record(view, "house"), "country"),
        head=head_text(view),
        held="; ".join(hold_sentence(view, one.hold) for one in held_among(view, [lot.id])),
    )


def _forage(view: View, lot: Lot) -> str:
    """What the bees worked, of all that is in a drum; "" where a source does not say."""
    found = claims_of(view, {lot.id: lot.made_g})
    floral = found.of(FLORAL) if found else None
    if floral is None or floral.ruling is Ruling.NOT_PROVABLE:
        return ""
    return ", ".join(floral.says)


def _container(record: Mapping[str, Json], code: str) -> str:
    sort = _text(record, "sort") or "drum"
    name = _text(record, "name") or code
    if not code or name.casefold().startswith(sort):
        return name
    return f"{sort.capitalize()} {name}"


def _jars(
    view: View, code: Code | JarCode, serials: Serials, markets: Sequence[Market]
) -> Iterator[JarLabel]:
    """One label a serial. A bottling still open has its code, so its labels can be printed."""
    lot_code = code.lot if isinstance(code, JarCode) else code
    first, last = serials.first, serials.last
    if isinstance(code, JarCode):
        first = last = code.serial
    product_key, jars, bottled = _bottling(view, str(lot_code))
    last = last or jars
    if not 1 <= first <= last or (jars and last > jars):
        raise Refusal(
            SERIALS_OUT, field="serials", code=str(lot_code), jars=jars, first=first, last=last
        )
    product = _record(view, f"product/{product_key}")
    lot = view.lot_by_code(str(lot_code))
    if lot is not None:
        refuse_claims(view, product, lot)
    content = label_content(view, product, lot, str(lot_code), bottled, markets)
    content.refuse_gaps()
    link, gtin = _text(_record(view, "house"), "web"), _text(product, "gtin")
    shared = _jar_label(content, us_dual=bool(_number(product, "us_dual")))
    for serial in range(first, last + 1):
        jar = str(make_jar_code(lot_code, serial))
        uri = digital_link(link, gtin, str(lot_code), f"{serial:05d}") if link and gtin else ""
        yield replace(shared, code=jar, uri=uri)


def retail_rows(view: View, text: str, serials: Serials) -> list[RetailCode]:
    """The retail code of what is in a lot's jars, so often as serials are named; else once.

    Raises:
        Refusal: no such code, or none of jars, or the product has no number.
    """
    code = read_code(view, text, "code")
    product, *_ = _bottling(view, str(code.lot if isinstance(code, JarCode) else code))
    return [retail_code_of(view, product)] * max(1, serials.last - serials.first + 1)


def jar_content(view: View, text: str, markets: Sequence[Market]) -> LabelContent:
    """What the labels of a jar lot or open bottling say, whether that is enough or not.

    Raises:
        Refusal: no such code, or none of jars.
    """
    code = read_code(view, text, "code")
    lot_code = str(code.lot if isinstance(code, JarCode) else code)
    product_key, _, bottled = _bottling(view, lot_code)
    product, lot = _record(view, f"product/{product_key}"), view.lot_by_code(lot_code)
    return label_content(view, product, lot, lot_code, bottled, markets)


def jar_warnings(
    view: View, text: str, now_ms: int, markets: Sequence[Market]
) -> tuple[LabelWarning, ...]:
    """What is worth knowing before labels of a lot are printed, what they lack with it.

    Raises:
        Refusal: no such code.
    """
    found = label_warnings(view, text, now_ms)
    if find_lot(view, text, field="code").kind != "J":
        return found
    try:
        content = jar_content(view, text, markets)
    except Refusal:  # said in full when the label is printed
        return found
    return (*found, *content_warnings(content))


def _jar_label(content: LabelContent, *, us_dual: bool) -> JarLabel:
    """What the labels of a bottling share."""
    says = content.items
    graded = (says[GRADE], says[COLOUR], says[STYLE])
    return JarLabel(
        code="",
        lot=says[LOT],
        product=says[NAME],
        net_g=content.net_g,
        producer=says[PARTY],
        place=says[ADDRESS],
        best_before=says[BEST_BEFORE],
        origin=says[ORIGIN],
        us_dual=us_dual,
        caution=says[CAUTION],
        us_first=content.us_first,
        grading=" · ".join(one for one in graded if one),
        storage=says[STORAGE],
        texts=content.texts,
        heights=heights_of(content.markets),
        panel_mm2=content.panel_mm2,
    )


def _bottling(view: View, code: str) -> tuple[str, int, date]:
    """The product of a jar lot or open bottling, how many jars it has (or 0), and its day."""
    lot = view.lot_by_code(code)
    if lot is not None:
        product = view.mark(code, "product")
        key = str(product.value) if product else _text(lot.attributes, "product")
        entry = view.entry(lot.made_by)
        assert entry is not None
        return key, _number(lot.attributes, "jars") or 0, day_of(entry.act.happened)
    mark = view.mark(place("bottling", code), "open")
    if mark is None or not isinstance(mark.value, Mapping):
        raise refuse_unknown(view, code, "code")
    return _text(mark.value, "product"), 0, house_day(mark.at_ms, rules_of(view).zone)


def rows_by_kind(rows: Sequence[PaperRow]) -> dict[type, list[PaperRow]]:
    """Rows sorted by what they are printed on, each kind in the order given."""
    kinds: dict[type, list[PaperRow]] = {}
    for row in rows:
        kinds.setdefault(type(row), []).append(row)
    return kinds
