"""The registers a person fills in by hand, as data: what each asks, in the order of the work.

Every fact that the terminal takes has its question here; what a house seldom needs is asked later.
"""

from honeyledger.desktop.stations.setup.asks import Ask, SetupKind, Typing, tr
from honeyledger.desktop.stations.setup.label_asks import worded, wordings
from honeyledger.desktop.stations.setup.recall_asks import missing_asks
from honeyledger.domain.own_rules import SOLIDS
from honeyledger.domain.quantities import QUANTITIES

_MASS, _COUNT, _YES = Typing.MASS, Typing.COUNT, Typing.YES


def _note() -> Ask:
    return Ask("note", tr("Note"), later=True)


def _not_for(*, later: bool = False) -> Ask:
    label = tr("Markets it is not eligible for")
    return Ask("not_for", label, later=later, short=tr("not for"))


def _selling() -> tuple[Ask, ...]:
    """Where a house sells, and how far what its labels say may be off."""
    return (
        Ask("markets", tr("Markets it sells in, or none for all"), later=True),
        Ask(
            "lot_mark", tr("Lot mark of jars: code, or date"), offers=("code", "date"), later=True
        ),
        Ask(
            "net_rule",
            tr("Rule for net contents"),
            usual="",
            offers=("average", "oiml-r87", "new-zealand", "us"),
            later=True,
        ),
        Ask(
            "share_tolerance_permille",
            tr("A country's share may be off by"),
            Typing.PERCENT,
            default="5",
            unit="%",
            later=True,
            short=tr("a share may be off by"),
        ),
        Ask("share_tolerance_relative", tr("Off by so much of the share"), _YES, later=True),
        Ask(
            "dry_first_permille",
            tr("Dried first above"),
            Typing.PERCENT,
            default="18",
            unit="%",
            later=True,
        ),
        Ask(
            "too_wet_permille",
            tr("Too wet to sell above"),
            Typing.PERCENT,
            default="20",
            unit="%",
            later=True,
            beside=True,
        ),
        *missing_asks(),
    )


def house_kind() -> SetupKind:
    """The house itself; its defaults are common practice, no source."""
    return SetupKind(
        "house",
        "house",
        tr("The house"),
        tr("Name the house. Its three usual boxes come with it."),
        (
            Ask("name", tr("Name of the house")),
            Ask("unit", tr("Weighs in"), Typing.UNIT, "kg"),
            Ask("zone", tr("Time zone"), Typing.ZONE),
            Ask(
                "usual_spread_permille",
                tr("A run may be out by"),
                Typing.PERCENT,
                default="6",
                unit="%",
                short=tr("a run may be out by"),
            ),
            Ask(
                "margin_ms",
                tr("A scan may come late by"),
                Typing.MINUTES,
                default="60",
                unit=tr("min"),
                beside=True,
                short=tr("a scan may come late by"),
            ),
            Ask("prefix", tr("Letters before every code, or none"), short=tr("letters")),
            Ask("producer", tr("Who answers for a jar, as on its label"), later=True),
            Ask("address", tr("Its whole address, as on labels"), later=True),
            Ask("caution", tr("Caution about infants, in your words"), later=True),
            Ask("storage", tr("How to store honey, on labels"), later=True),
            Ask("web", tr("Web address in the code of a jar"), later=True, short=tr("web")),
            Ask("gs1_prefix", tr("GS1 company prefix, if it has one"), later=True),
            Ask("country", tr("Country its honey is from"), later=True),
            Ask("place", tr("Place"), later=True, beside=True),
            Ask("latitude", tr("Latitude"), Typing.DEGREES, unit="°", later=True),
            Ask("longitude", tr("Longitude"), Typing.DEGREES, unit="°", later=True, beside=True),
            Ask(
                "jar_margin",
                tr("Jars a change-over may be off"),
                _COUNT,
                default="24",
                later=True,
            ),
            Ask(
                "shortfall_permille",
                tr("Books may fall short by"),
                Typing.PERCENT,
                default="20",
                unit="%",
                later=True,
                beside=True,
            ),
            *_selling(),
            Ask("two_free", tr("Two people free what is on hold"), _YES, later=True),
        ),
        needed=True,
    )


def first_kinds() -> tuple[SetupKind, ...]:
    """What a new house goes through."""
    return (house_kind(), _people(), _yards(), _boxes(), _lines(), _tanks())


def _people() -> SetupKind:
    return SetupKind(
        "operator",
        "operator",
        tr("People"),
        tr("Who works here? Each gets a badge code; entries carry the name."),
        (Ask("name", tr("Name")), Ask("role", tr("Work")), _note()),
    )


def _yards() -> SetupKind:
    return SetupKind(
        "yard",
        "yard",
        tr("Yards"),
        tr("Name a yard, or take in a table of them under Spreadsheets."),
        (
            Ask("name", tr("Name of the yard")),
            Ask("colonies", tr("Colonies"), _COUNT),
            Ask("place", tr("Place"), beside=True),
            Ask("number", tr("The yard's own number"), later=True, short=tr("number")),
            Ask("forage", tr("What the bees work"), later=True, beside=True, short=tr("on")),
            Ask("region", tr("Region a label may name"), later=True, short=tr("region")),
            Ask("country", tr("Country, if not the house's"), later=True, beside=True),
            Ask("latitude", tr("Latitude"), Typing.DEGREES, unit="°", later=True),
            Ask("longitude", tr("Longitude"), Typing.DEGREES, unit="°", later=True, beside=True),
            Ask("owner", tr("Whose bees, if not the house's"), later=True, short=tr("bees of")),
            Ask("organic", tr("Certified organic"), _YES, later=True),
            _not_for(later=True),
            Ask("certified", tr("Its supers move with a certificate"), _YES, later=True),
            _note(),
        ),
        needed=True,
        several=True,
    )


def _boxes() -> SetupKind:
    return SetupKind(
        "box",
        "box",
        tr("Boxes"),
        tr("Medium, deep and shallow are there with usual weights; put your own in."),
        (
            Ask("name", tr("Name of the box")),
            Ask("honey_g", tr("Honey in a full one"), _MASS, short=tr("honey")),
            Ask("tare_g", tr("Weight with empty frames"), _MASS, beside=True, short=tr("empty")),
            Ask("frames", tr("Frames"), _COUNT),
        ),
    )


def _lines() -> SetupKind:
    return SetupKind(
        "line",
        "vessel",
        tr("Extracting lines"),
        tr("A line is what is never washed apart: extractor, sump, pump, pipe."),
        (
            Ask("name", tr("Name of the line"), usual=tr("Line 1")),
            Ask("capacity_g", tr("Holds"), _MASS, later=True),
            _note(),
        ),
        sort="line",
        needed=True,
    )


def _tanks() -> SetupKind:
    return SetupKind(
        "tank",
        "vessel",
        tr("Tanks"),
        tr("A tank is fed by a line; drums are filled from it."),
        (
            Ask("name", tr("Name of the tank"), usual=tr("Tank 1")),
            Ask("fed_by", tr("Fed by the line"), Typing.LINE),
            Ask("capacity_g", tr("Holds"), _MASS),
            Ask("depth_cm", tr("Inside depth in cm"), _COUNT, later=True),
            Ask(
                "sort",
                tr("Sort of vessel"),
                usual="tank",
                offers=("tank", "sump", "drainer", "melter"),
                later=True,
            ),
            _note(),
        ),
        needed=True,
    )


def kinds_of_the_floor() -> tuple[SetupKind, ...]:
    """The things people work with."""
    return (
        SetupKind(
            "drum",
            "drum",
            tr("Drums and totes"),
            tr("Containers that are used again; a one-way drum needs no record."),
            (
                Ask("name", tr("Its name or number")),
                Ask("tare_g", tr("Weight when empty"), _MASS, short=tr("empty")),
                Ask("sort", tr("Sort"), offers=("drum", "tote", "pail"), later=True),
                Ask("number", tr("Number on it"), later=True, beside=True),
                Ask("usual_g", tr("Usual net content"), _MASS, later=True),
                Ask("limit_g", tr("Most it may hold"), _MASS, later=True, beside=True),
                _note(),
            ),
        ),
        SetupKind(
            "room",
            "room",
            tr("Rooms"),
            tr("Where drums, pallets and cases stand: a stocktake walks them row by row."),
            (
                Ask("name", tr("Name of the room")),
                Ask(
                    "sort",
                    tr("Sort of room"),
                    offers=("hot room", "drum room", "store"),
                ),
                _note(),
            ),
        ),
        SetupKind(
            "equipment",
            "equipment",
            tr("Instruments"),
            tr("What is checked, so that a fault says since when."),
            (
                Ask("name", tr("Name of the piece")),
                Ask(
                    "sort",
                    tr("Sort"),
                    offers=("scale", "refractometer", "sieve", "magnet", "thermometer"),
                ),
                Ask("number", tr("Number on it"), beside=True),
                Ask("at", tr("Part of the vessel or line, or none"), Typing.VESSEL),
                Ask(
                    "weighs",
                    tr("Weighs only"),
                    offers=("supers", "drums", "jars"),
                    later=True,
                ),
                _note(),
            ),
        ),
        _checks(),
    )


def _checks() -> SetupKind:
    return SetupKind(
        "checks",
        "check",
        tr("Checks of the house"),
        tr("One of the list by its name, to change or leave out; or one of your own."),
        (
            Ask("name", tr("Name of the check")),
            Ask("every", tr("How often, such as 2 weeks")),
            Ask("sort", tr("Of which sort of equipment"), beside=True),
            Ask("look", tr("What is looked at")),
            Ask("source", tr("Where the interval is from"), later=True),
            Ask("left_out", tr("This house does not make it"), _YES, later=True),
        ),
    )


def _products() -> SetupKind:
    return SetupKind(
        "product",
        "product",
        tr("Products"),
        tr("What is bottled: a name and the net content of a jar."),
        (
            Ask("name", tr("Name of the product")),
            Ask("net_g", tr("Net content"), Typing.GRAMS, unit="g"),
            Ask("gtin", tr("GTIN, if it has one"), beside=True, short=tr("GTIN")),
            Ask("keeps_months", tr("Months it keeps"), _COUNT, later=True),
            Ask("crop", tr("Crop year its label says"), _COUNT, later=True, beside=True),
            Ask("label", tr("What its label calls it"), later=True),
            Ask("origin", tr("Origin line on its label"), later=True),
            Ask("best_before", tr("Best-before line on its label"), later=True),
            Ask("claims_region", tr("The one region its label says"), later=True),
            Ask("claims_yard", tr("The one yard its label says"), later=True),
            Ask("claims_floral", tr("Floral kind its label says"), later=True, beside=True),
            Ask("claims_countries", tr("Countries its label says, with shares"), later=True),
            Ask("for_markets", tr("Markets its jars are for"), later=True),
            Ask("kinds", tr("Sold as, for limits (heather …)"), later=True, beside=True),
            *worded(),
            Ask("claims_organic", tr("Its label says organic"), _YES, later=True),
            Ask("us_dual", tr("Ounces and pounds beside grams"), _YES, later=True),
            _note(),
        ),
    )


def _limits() -> SetupKind:
    return SetupKind(
        "limit",
        "limit",
        tr("Limits"),
        tr("The house's own limits stand over those of markets; give where each is written."),
        (
            Ask("name", tr("Name of the limit")),
            Ask("property", tr("Of"), offers=(*QUANTITIES, SOLIDS), short=tr("of")),
            Ask("lowest", tr("Lowest that passes"), short=tr("at least")),
            Ask("highest", tr("Highest that passes"), beside=True, short=tr("at most")),
            Ask("source", tr("Where it is written"), short=tr("source")),
            Ask("standard", tr("Rules it belongs to, as eu"), later=True),
            Ask("kinds", tr("For these kinds of honey only"), later=True, beside=True),
            Ask("as_of", tr("Edition or date"), later=True),
            _note(),
        ),
    )


def kinds_of_trade() -> tuple[SetupKind, ...]:
    """What is sold and bought, and with whom."""
    return (
        _products(),
        wordings(),
        _limits(),
        SetupKind(
            "customer",
            "customer",
            tr("Customers"),
            tr("Who honey goes to."),
            (
                Ask("name", tr("Name")),
                Ask("place", tr("Place")),
                Ask("phone", tr("Phone")),
                Ask("email", tr("E-mail"), beside=True),
                Ask("market", tr("Markets it is in, or none")),
                _note(),
            ),
        ),
        SetupKind(
            "supplier",
            "supplier",
            tr("Suppliers"),
            tr("Who honey is bought from; where it is from is asked of each drum, too."),
            (
                Ask("name", tr("Name")),
                Ask("country", tr("Country its honey is from")),
                Ask("place", tr("Place"), beside=True),
                Ask("organic", tr("Certified organic"), _YES),
                _not_for(),
                _note(),
            ),
        ),
    )
