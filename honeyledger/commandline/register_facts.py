"""Which facts each register has in the terminal: option, name in the record, typing, help."""

from collections.abc import Mapping
from typing import NamedTuple


class Fact(NamedTuple):
    """One fact of a register: its option, its name in the record, how it is typed, its help."""

    option: str
    key: str
    typed: str
    help: str


TEXT, MASS, GRAMS, COUNT, MINUTES, PERCENT, DEGREES, ZONE, PLACE, YES, MEASURE = (
    *("text", "weight", "grams", "count", "minutes", "percent", "degrees", "zone", "vessel"),
    *("yes or no", "mm"),
)
NUMBER = Fact("number", "number", TEXT, "The number painted on it.")
NOTE = Fact("note", "note", TEXT, "Anything worth knowing.")
WRITTEN = (
    Fact("source", "source", TEXT, "Where it is written."),
    Fact("as-of", "as_of", TEXT, "Which edition, or of what date."),
)
WHERE = Fact("place", "place", TEXT, "Town, district or land description.")
ORGANIC = Fact("organic", "organic", YES, "yes where its honey is certified organic.")
NOT_FOR = Fact("not-for", "not_for", TEXT, "Markets its honey is not eligible for.")

FACTS: Mapping[str, tuple[Fact, ...]] = {
    "yard": (
        Fact("number", "number", TEXT, "The yard's own number."),
        Fact("colonies", "colonies", COUNT, "How many colonies stand there."),
        Fact("forage", "forage", TEXT, "What the bees work."),
        WHERE,
        Fact("region", "region", TEXT, "The region a label may name."),
        Fact("country", "country", TEXT, "Its country, where not the house's."),
        ORGANIC,
        NOT_FOR,
        Fact("latitude", "latitude", DEGREES, "Decimal degrees, north above zero."),
        Fact("longitude", "longitude", DEGREES, "Decimal degrees, east above zero."),
        Fact("owner", "owner", TEXT, "Whose bees they are, where not the house's."),
        Fact("certified", "certified", YES, "yes where moving its supers needs a certificate."),
        NOTE,
    ),
    "vessel": (
        Fact("sort", "sort", TEXT, "line, tank, sump, drainer ..."),
        Fact("fed-by", "fed_by", PLACE, "The line whose honey runs into it."),
        Fact("capacity", "capacity_g", MASS, "What it holds."),
        Fact("depth", "depth_cm", COUNT, "How deep it is inside, cm: a dip is read by it."),
        NOTE,
    ),
    "drum": (
        NUMBER,
        Fact("sort", "sort", TEXT, "drum, tote or pail."),
        Fact("tare", "tare_g", MASS, "Weight of the empty container."),
        Fact("usual", "usual_g", MASS, "Usual net content; 290 kg where nothing is said."),
        Fact("limit", "limit_g", MASS, "Most it may hold."),
        NOTE,
    ),
    "product": (
        Fact("net", "net_g", GRAMS, "Declared net content; in grams unless a unit is typed."),
        Fact("gtin", "gtin", TEXT, "Its GTIN, where it has one."),
        Fact("label", "label", TEXT, "What its label calls it, where not by its name."),
        Fact("origin", "origin", TEXT, "Origin line on its label; {countries} is filled in."),
        Fact("best-before", "best_before", TEXT, "The best-before line on its label."),
        Fact("party", "party", TEXT, "Who answers for it on its label, where not the house."),
        Fact("party-address", "party_address", TEXT, "The address of who answers for it."),
        Fact("grade", "grade", TEXT, "The grade its label says."),
        Fact("colour-class", "colour_class", TEXT, "The colour class its label says."),
        Fact("style", "style", TEXT, "Liquid, creamed, pressed, as its label says."),
        Fact("storage", "storage", TEXT, "How to store it, as its label says."),
        Fact("panel-width", "panel_width_um", MEASURE, "Width of the jar's main panel, mm."),
        Fact("panel-height", "panel_height_um", MEASURE, "Height of the jar's main panel, mm."),
        Fact("us-dual", "us_dual", YES, "yes to show ounces and pounds beside grams."),
        Fact("crop", "crop", COUNT, "The crop year its label says."),
        Fact("claims-organic", "claims_organic", YES, "yes where its label says organic."),
        Fact("claims-region", "claims_region", TEXT, "The one region its label says."),
        Fact("claims-yard", "claims_yard", TEXT, "The one yard its label says."),
        Fact("claims-floral", "claims_floral", TEXT, "The floral kind its label says."),
        Fact(
            "claims-countries",
            "claims_countries",
            TEXT,
            "The countries its label says, such as Argentina 60, Uruguay 40.",
        ),
        Fact("for-markets", "for_markets", TEXT, "Markets its jars are labelled for."),
        Fact("kinds", "kinds", TEXT, "What honey it is sold as, for limits: heather, pressed."),
        Fact("keeps", "keeps_months", COUNT, "Months from bottling to best before."),
        NOTE,
    ),
    "customer": (
        Fact("market", "market", TEXT, "The markets it is in; honey not eligible stays here."),
        WHERE,
        NOTE,
    ),
    "supplier": (
        Fact("country", "country", TEXT, "Where its honey is from."),
        ORGANIC,
        NOT_FOR,
        WHERE,
        NOTE,
    ),
    "box": (
        Fact("honey", "honey_g", MASS, "Usual honey in a full one."),
        Fact("tare", "tare_g", MASS, "Weight of an empty one with its frames."),
        Fact("frames", "frames", COUNT, "Frames in it."),
    ),
    "equipment": (
        Fact("sort", "sort", TEXT, "scale, refractometer, sieve ..."),
        Fact("part-of", "at", PLACE, "The vessel or line it is part of, such as a sieve's."),
        Fact("weighs", "weighs", TEXT, "Of a scale: supers, drums or jars, where only those."),
        NUMBER,
        NOTE,
    ),
    "room": (Fact("sort", "sort", TEXT, "hot room, drum room, store ..."), NOTE),
    "check": (
        Fact("every", "every", TEXT, "How often, such as 2 weeks."),
        Fact("look", "look", TEXT, "What is looked at."),
        Fact("sort", "sort", TEXT, "Of which sort of equipment, each piece by itself."),
        Fact("source", "source", TEXT, "Where the interval is from."),
        Fact("left-out", "left_out", YES, "yes: this house does not make it."),
    ),
    "operator": (Fact("role", "role", TEXT, "What the person does."), NOTE),
    "shift": (
        Fact("begins", "begins", TEXT, "When it begins, such as 06:00."),
        Fact("ends", "ends", TEXT, "When it ends."),
        Fact("people", "people", TEXT, "Who is on it: names or badges, with commas between."),
        NOTE,
    ),
    "order": (
        Fact("customer", "customer", TEXT, "Who wants it."),
        Fact("due", "due", TEXT, "The day it has to go, such as 30 Jul 2026."),
        Fact("goods", "goods", TEXT, "What is wanted."),
        Fact("done", "done", YES, "yes: it went, or it is called off."),
        NOTE,
    ),
    "limit": (
        Fact("standard", "standard", TEXT, "The rules it belongs to, such as eu; else its own."),
        Fact("property", "property", TEXT, "What it limits: moisture, hmf, diastase ..."),
        Fact("lowest", "lowest", TEXT, "The lowest figure that passes."),
        Fact("highest", "highest", TEXT, "The highest figure that passes."),
        Fact("kinds", "kinds", TEXT, "Kinds of honey it is for, where not for any."),
        *WRITTEN,
        NOTE,
    ),
    "wording": (
        Fact("market", "market", TEXT, "For which market: EU, UK, US, Canada, own or another."),
        Fact("item", "item", TEXT, "What has to be on the label: storage, grade, origin ..."),
        Fact("text", "text", TEXT, "Words printed on the label besides."),
        *WRITTEN,
        Fact("left-out", "left_out", YES, "yes: that market does not want it."),
        NOTE,
    ),
    "stock": (
        Fact("paper", "paper", TEXT, "a4, letter, sheet (of another size) or roll."),
        Fact("width", "width_um", MEASURE, "Width of one label, mm."),
        Fact("height", "height_um", MEASURE, "Height of one label, or its length on the roll."),
        Fact("columns", "columns", COUNT, "Labels side by side."),
        Fact("rows", "rows", COUNT, "Labels one under another."),
        Fact("left", "left_um", MEASURE, "Margin at the left of the sheet."),
        Fact("top", "top_um", MEASURE, "Margin at the top of the sheet."),
        Fact("gap-across", "gap_x_um", MEASURE, "Gap between columns."),
        Fact("gap-down", "gap_y_um", MEASURE, "Gap between rows."),
        Fact("sheet-width", "sheet_width_um", MEASURE, "Of a sheet of another size: its width."),
        Fact("sheet-height", "sheet_height_um", MEASURE, "Its height."),
        Fact("colour", "colour", TEXT, "Of its paper where it is not white: kraft, #C9A36B."),
        NOTE,
    ),
    "house": (
        Fact("zone", "zone", ZONE, "Time zone, such as Europe/Berlin."),
        Fact("prefix", "prefix", TEXT, "Two or three letters in front of every code."),
        Fact("weighs-in", "unit", TEXT, "kg or lb."),
        Fact("reach-margin", "margin_ms", MINUTES, "Minutes a scan may come late; 60 at first."),
        Fact("jar-margin", "jar_margin", COUNT, "Jars a change-over may be off; 24 at first."),
        Fact(
            "tolerance", "usual_spread_permille", PERCENT, "What a run may be out by; 6 at first."
        ),
        Fact("shortfall", "shortfall_permille", PERCENT, "What books may lack; 20 at first."),
        Fact("dry-first", "dry_first_permille", PERCENT, "Honey above is dried; 18 at first."),
        Fact("too-wet", "too_wet_permille", PERCENT, "Honey above is not sold; 20 at first."),
        Fact("warn-missing", "missing_warn_permille", PERCENT, "Missing in a recall; 2 at first."),
        Fact("explain-missing", "missing_explain_permille", PERCENT, "To explain; 5 at first."),
        Fact("net-rule", "net_rule", TEXT, "Rule for net contents: average, new-zealand, us ..."),
        Fact("lot-mark", "lot_mark", TEXT, "date: jars show the day as lot mark, not the code."),
        Fact("markets", "markets", TEXT, "Markets it sells in; limits of others are not shown."),
        Fact(
            "share-tolerance",
            "share_tolerance_permille",
            PERCENT,
            "What a country's share on a label may be off; 5 at first.",
        ),
        Fact(
            "share-tolerance-relative",
            "share_tolerance_relative",
            YES,
            "yes where that is of the share, not in points of percent.",
        ),
        Fact("two-free", "two_free", YES, "yes: two people clear and release what is on hold."),
        Fact("producer", "producer", TEXT, "Who answers for a jar, as on its label."),
        Fact("address", "address", TEXT, "The house's whole address, as on labels."),
        Fact("caution", "caution", TEXT, "The caution about infants, in the house's own words."),
        Fact("storage", "storage", TEXT, "How to store honey, as on labels."),
        Fact("web", "web", TEXT, "Web address carried in the QR of jars, such as https://..."),
        Fact("gs1-prefix", "gs1_prefix", TEXT, "GS1 company prefix; cases get numbers (SSCC)."),
        Fact("country", "country", TEXT, "Where its honey is from."),
        Fact("latitude", "latitude", DEGREES, "Where the truck starts, decimal degrees."),
        Fact("longitude", "longitude", DEGREES, "The same, east above zero."),
        WHERE,
    ),
}
