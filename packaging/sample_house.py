"""The sample's house: its people, boxes, vessels, products, customers and yards, all invented.

Names were checked by ear: made up so that no farm, firm or place is likely to bear them.
Weights and counts are common practice, no source.
"""

from sample_chance import Chance, Tables, exact_kg, kg

HEADS: dict[str, list[str]] = {
    "house": ["Name", "Since", "Zone", "Weighs in", "Reach margin min", "Producer", "Place"],
    "operators": ["Name", "Role"],
    "boxes": ["Name", "Usual honey kg", "Tare kg", "Frames"],
    "yards": ["Yard", "Colonies", "Forage", "Latitude", "Longitude", "Place", "Owner"],
    "vessels": ["Name", "Sort", "Fed by", "Capacity kg", "Note"],
    "containers": ["Name", "Sort", "Tare kg", "Usual net kg", "Limit kg"],
    "products": ["Name", "Net kg", "Origin", "Keeps months"],
    "customers": ["Name", "Place", "Note"],
    "suppliers": ["Name", "Country", "Place"],
    "rooms": ["Name", "Note"],
    "equipment": ["Name", "Sort", "Part of", "Weighs", "Note"],
}

DRUMS, PAILS, TOTES = 150, 48, 2
OLD_DRUMS, MORE_PAILS = 4, 12  # full before the season began; for seed, comb and the bakery
CAPPINGS_DRUM = "Drum 150"
OWNER = "Wendt Harloff"
OWNERS_YARD = "Foxglint"
GUEST, GUESTS_YARD = "Orrin Vasklow", "Wrenlatch East"  # his supers stand beside the house's

YARDS = (
    *("Brackle Slough", "Quernhollow", "Wrenlatch East", "Wrenlatch West", "Tollan's Corner"),
    *("Mosswick Bend", "Fennimark", "Old Skarn Pit", "Pellow Flat", "Sedgewater"),
    *("Thrumley Road", "Kettlemark", "Drumlin Nine", "Hobbing Gate", "Larrow Dam"),
    *("Upper Tansel", "Lower Tansel", "Cattail Row", "Grebe Landing", "Marlstone Rise"),
    *("Ninepin Bluff", "Oatfell", "Pikestaff", "Quillery", "Rushmantle"),
    *("Saltlick Turn", "Teasel End", "Underhedge", "Vetchling", "Windrow Seven"),
    *("Yarrowby", "Alderbight", "Barley Knuckle", "Coulee Hatch", "Dunnock Flat"),
    *("Emberly Cut", OWNERS_YARD, "Harrow's Elbow", "Ivermoss", "Jackdaw Siding"),
)
GAVE_NOTHING = "Ivermoss"
FAILED = ("Underhedge", "Dunnock Flat")
BUCKWHEAT = ("Rushmantle", "Barley Knuckle")
BASSWOOD = ("Old Skarn Pit", "Larrow Dam", "Marlstone Rise", "Yarrowby")
CANOLA = (
    *("Brackle Slough", "Fennimark", "Pellow Flat", "Thrumley Road", "Drumlin Nine"),
    *("Oatfell", "Saltlick Turn", "Windrow Seven", "Coulee Hatch", "Emberly Cut"),
)
DEEP = (
    *("Quernhollow", "Mosswick Bend", "Kettlemark", "Upper Tansel", "Ninepin Bluff"),
    *("Teasel End", "Alderbight", "Jackdaw Siding"),
)

PEOPLE = (
    ("Nell Varrowby", "office"),
    ("Jory Tamblock", "floor"),
    ("Odile Braskew", "bottling"),
    ("Wim Haskerly", "dock"),
    ("Petra Lunnock", "yards"),
    ("Cass Doverling", "bench"),
    ("Anselm Tirrow", "season help"),
)
CREWS = ("Petra, Anselm", "Petra, Wim", "Wim, Cass", "Petra, Cass, Anselm")

CLEAR, BLEND, LARGE, CREAMED, PAIL = (
    *("Clover honey 500 g", "Field blend 250 g", "Field blend 1 kg"),
    *("Creamed honey 375 g", "Kitchen pail 3 kg"),
)
NET_G = {CLEAR: 500, BLEND: 250, LARGE: 1000, CREAMED: 375, PAIL: 3000}
SHOPS_OWN, CUT_COMB, CHUNK = "Pantry creamed 375 g", "Cut comb 340 g", "Chunk honey 500 g"
MORE_PRODUCTS = {SHOPS_OWN: 375, CUT_COMB: 340, CHUNK: 500}
SHOPS = (
    "Three Kettles Grocery",
    "Hartle & Nym Foods",
    "Brindlecote Stores",
    "Lowfold Bakery",
    "Nethervale Stallholders",
    "The Ellwick Pantry",
)
PACKER, WAX_BUYER = "Corvane Packing", "Tallowick Candles"
REFUSER = "Merrowin Foods"
SUPPLIER, PACKAGING = "Ambrallo Mieles", "Tewkle Glass and Lids"
SPICES = "Sarnwick Spices"
HOT_ROOM, DRUM_STORE, JAR_STORE = "Hot room", "Drum store", "Jar store"
COMB_TABLE, KETTLE = "Comb table", "Stirring kettle"
SCALE, SIEVE = "Drum scale", "Sieve 400"


def write_registers(tables: Tables, chance: Chance) -> dict[str, int]:
    """Write the registers; gives each yard's colonies."""
    tables.add(
        "house",
        name="Larkslough Honey House",
        since="2026-06-26 09:00",
        zone="America/Winnipeg",
        weighs_in="kg",
        reach_margin=60,
        producer="Larkslough Honey House",
        place="Section 14, Tansel Road",
    )
    for name, role in PEOPLE:
        tables.add("operators", name=name, role=role)
    for name, honey, tare, frames in (
        ("medium", "14.8", "6.1", 9),
        ("deep", "25.5", "8.9", 9),
        ("shallow", "10", "4.7", 9),
    ):
        tables.add("boxes", name=name, usual_honey=honey, tare=tare, frames=frames)
    _vessels(tables)
    _containers(tables, chance)
    for name, net_g in (NET_G | MORE_PRODUCTS).items():
        blended = name in (BLEND, LARGE)
        origin = "Blend of honeys from Canada and Argentina" if blended else "Product of Canada"
        tables.add("products", name=name, net=exact_kg(net_g), origin=origin, keeps_months=24)
    for name in SHOPS:
        tables.add("customers", name=name)
    tables.add("customers", name=PACKER, note="buys drums by the truck")
    tables.add("customers", name=WAX_BUYER, note="buys wax")
    tables.add("customers", name=OWNER, note="has his supers extracted here")
    tables.add("customers", name=REFUSER, note="buys drums by colour")
    tables.add("customers", name=GUEST, note="has a few supers, which go through with ours")
    tables.add("suppliers", name=SUPPLIER, country="AR")
    tables.add("suppliers", name=PACKAGING)
    tables.add("suppliers", name=SPICES)
    _rooms(tables)
    return _yards(tables, chance)


def _rooms(tables: Tables) -> None:
    for name, note in (
        (HOT_ROOM, "34 °C, dry air"),
        (DRUM_STORE, "rows by run: four runs a row"),
        (JAR_STORE, "15 °C"),
    ):
        tables.add("rooms", name=name, note=note)
    for name, sort, part_of, weighs, note in (
        ("Refractometer 1", "refractometer", "", "", "bench"),
        ("Refractometer 2", "refractometer", "", "", "floor"),
        (SCALE, "scale", "", "drums", "to 500 kg, steps of 100 g"),
        (SIEVE, "sieve", "Settling tank", "", "400 micrometres, before the settling tank"),
    ):
        cells = {"sort": sort, "part_of": part_of, "weighs": weighs, "note": note}
        tables.add("equipment", name=name, **cells)


def _vessels(tables: Tables) -> None:
    line = "uncapper, extractor, pump and pipes: never washed apart"
    for name, sort, fed_by, capacity, note in (
        ("Line A", "line", "", 0, line),
        ("Sump", "sump", "Line A", 320_000, "washed on Sundays"),
        ("Settling tank", "tank", "Sump", 2_400_000, "drums are filled here"),
        ("Bottling tank", "tank", "", 1_500_000, ""),
        ("Creaming tank", "tank", "", 900_000, "never emptied: the rest seeds the next batch"),
        ("Melter", "melter", "", 300_000, "what drains no more from cappings"),
        (COMB_TABLE, "tank", "", 200_000, "comb is cut on it, and drains into it"),
        (KETTLE, "tank", "", 60_000, "small batches"),
    ):
        tables.add(
            "vessels",
            name=name,
            sort=sort,
            fed_by=fed_by,
            capacity=kg(capacity) if capacity else None,
            note=note,
        )


def _containers(tables: Tables, chance: Chance) -> None:
    for number in range(1, DRUMS + 1):
        tare = kg(round(chance.normal(18_000, 1_100, 15_500, 20_500) / 100) * 100)
        tables.add(
            "containers",
            name=f"Drum {number}",
            sort="drum",
            tare=tare,
            usual_net="293",
            limit="305",
        )
    for number, tare in zip(range(1, TOTES + 1), ("59.5", "61"), strict=True):
        tables.add(
            "containers",
            name=f"Tote {number}",
            sort="tote",
            tare=tare,
            usual_net="1395",
            limit="1430",
        )
    for number in range(1, PAILS + 1):
        tables.add(
            "containers",
            name=f"Pail {number}",
            sort="pail",
            tare="1.1",
            usual_net="27.2",
            limit="28",
        )
    for number in range(DRUMS + 1, DRUMS + OLD_DRUMS + 1):
        name = f"Drum {number}"
        tables.add("containers", name=name, sort="drum", tare="18", usual_net="293", limit="305")
    for number in range(PAILS + 1, PAILS + MORE_PAILS + 1):
        name = f"Pail {number}"
        tables.add("containers", name=name, sort="pail", tare="1.1", usual_net="27.2", limit="28")


def _yards(tables: Tables, chance: Chance) -> dict[str, int]:
    colonies = {name: 24 + 2 * chance.whole(0, 12) for name in YARDS}
    colonies[OWNERS_YARD] = 42
    names = [name for name in YARDS if name != OWNERS_YARD]
    while (off := 1200 - sum(colonies.values())) != 0:
        name = chance.one_of(names)
        wanted = colonies[name] + (2 if off > 0 else -2)
        if 24 <= wanted <= 48:
            colonies[name] = wanted
    for at, name in enumerate(YARDS):
        # A loose grid of quarter sections, a few kilometres apart, on open land.
        row, column = divmod(at, 8)
        latitude = 49.42 + row * 0.058 + chance.between(-0.018, 0.018)
        longitude = -98.9 + column * 0.083 + chance.between(-0.026, 0.026)
        tables.add(
            "yards",
            yard=name,
            colonies=colonies[name],
            forage=forage(name),
            latitude=f"{latitude:.5f}",
            longitude=f"{longitude:.5f}",
            place=f"{chance.one_of(('NE', 'NW', 'SE', 'SW'))} {chance.whole(1, 36)}",
            owner=OWNER if name == OWNERS_YARD else None,
        )
    return colonies


def forage(yard: str) -> str:
    """What the bees of a yard work."""
    if yard in BUCKWHEAT:
        return "buckwheat"
    if yard in BASSWOOD:
        return "basswood, clover"
    if yard in CANOLA:
        return "canola, goldenrod"
    return "clover, goldenrod"
