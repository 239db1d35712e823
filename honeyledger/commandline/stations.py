"""Which commands there are, in the order of the work, and what the help says of each."""

from typing import NamedTuple


class Station(NamedTuple):
    """A heading of the help, the module its commands are in, and each command with its help."""

    heading: str
    module: str
    commands: dict[str, str]


STATIONS = (
    Station(
        "The house",
        "ledger",
        {
            "new": "Make a new, empty house.",
            "entries": "Show the newest entries.",
            "audit": "Check every invariant of the ledger.",
            "backup": "Copy the house into a file, while others work; the copy is checked.",
        },
    ),
    Station(
        "The house",
        "imports",
        {
            "sample": "Load the sample season into a new house.",
            "import": "Take in a spreadsheet's table of yards or receipts, or a laboratory's.",
        },
    ),
    Station(
        "Registers",
        "registers",
        {"register": "Yards, vessels, products, people: list, add, change."},
    ),
    Station(
        "Yards",
        "yards",
        {
            "supers-on": "Supers are put on a yard's colonies.",
            "treat": "A yard's colonies are treated; pulls of the days in doubt are held.",
            "feed": "A yard's colonies are fed; with supers on, its pulls are held from then on.",
            "disease": "Flag a yard for a disease, or lift the flag, by name.",
            "certify": "A certificate for moving a yard's colonies or supers is on record.",
            "yard-days": "Show a yard by its dates: supers on, treated, fed, flagged, pulled.",
        },
    ),
    Station(
        "Yards",
        "weather",
        {"weather": "Note a day's weather, to read a season's yields by."},
    ),
    Station(
        "Checks",
        "checks",
        {
            "checks": "List the checks that are due, overdue, or were found off.",
            "check": "Equipment was checked: a scale, a refractometer, a sieve, a magnet.",
            "used-since": "List the runs, drums and jars that used a piece of equipment.",
        },
    ),
    Station(
        "Dock",
        "dock",
        {
            "receive": "Supers come in from a yard on a pallet.",
            "split": "Put some supers of a pallet onto a new one.",
            "join": "Put everything on one pallet onto another.",
            "count": "Correct the count of supers on a pallet.",
        },
    ),
    Station(
        "Hot room",
        "hot_room",
        {
            "room": "Log a room's air, or show its log.",
            "dry": "Water leaves honey in the hot room, computed on its solids.",
            "set-aside": "Supers or frames of a pallet do not go through.",
        },
    ),
    Station(
        "Extraction",
        "floor",
        {
            "run": "Open a run, show its sheet, close it.",
            "load": "Supers of a pallet go into a line's first vessel.",
            "wet-out": "Empty wet supers are counted and weighed.",
            "cappings": "A barrel of cappings is weighed.",
            "wash": "Vessels are emptied and washed.",
        },
    ),
    Station(
        "Extraction",
        "pace",
        {
            "pace": "Show how the line worked each day, and what it stood for.",
            "stop": "The line stood still: for how long, and why.",
        },
    ),
    Station(
        "Other people's honey",
        "owners",
        {
            "pool": "A run is pooled: its owners agreed to share what comes out.",
            "settle": "A closed run is settled with its owners, by name, to the gram.",
            "statement": "Show what a run's owners get, as signed or as it stands now.",
        },
    ),
    Station(
        "Drums and tanks",
        "drums",
        {
            "fill": "Fill a drum, or draw into another vessel.",
            "bung": "Close a drum that waited for more.",
            "reweigh": "Put a drum on the scale again.",
            "skim": "Take foam off a vessel or drum.",
        },
    ),
    Station(
        "Honey from outside",
        "bought_in",
        {
            "purchase": "A drum of honey is bought in.",
            "send-back": "Bought-in drums go back to their supplier, and stay on record.",
            "opening-stock": "A drum that was full before the house began to keep this ledger.",
        },
    ),
    Station(
        "Where things stand",
        "stocktake",
        {
            "move": "Drums, pallets or cases are carried to a room and a row.",
            "stocktake": "A row is walked: what was scanned against what should stand there, in "
            "one entry.",
            "found-drum": "A full drum is found that the books know nothing of: on hold, its "
            "source not known.",
            "standing": "List what should stand in a room or a row: the sheet for a stocktake.",
        },
    ),
    Station(
        "Blending",
        "blending",
        {
            "blend": "Weighed parts go into a vessel, in one entry.",
            "blends": "Show what was blended in a vessel, planned against weighed.",
            "warm": "Honey was warmed: how hot, and for how long.",
            "supply": "An ingredient or packaging comes in: with --net the one, with --count the "
            "other.",
        },
    ),
    Station(
        "By-products",
        "by_products",
        {
            "melt": "A melter gives wax and heated honey.",
            "cut": "Supers are cut into pieces of comb honey.",
            "chunk": "Jars get a piece of comb in liquid honey.",
        },
    ),
    Station(
        "Bottling",
        "bottling",
        {
            "change-over": "Start a bottling, or go on from another drum or vessel.",
            "bottle": "Close a bottling: its jars become one lot.",
        },
    ),
    Station(
        "Jars",
        "jars",
        {
            "pack": "Jars go into cases, or cases onto a shipping pallet; nothing is mixed by it.",
            "unpack": "A case or pallet is opened: what was in it stands by itself again.",
            "label": "Jars of a lot are labelled, on a later day or under another product.",
            "complaint": "A complaint about a jar or a lot is taken in, or answered.",
            "complaints": "List complaints, or those about CODE, each with the trace of its jar.",
        },
    ),
    Station(
        "Jars",
        "claims",
        {"judge-claims": "Judge the claims of jars again, after a record was put right."},
    ),
    Station(
        "Dispatch",
        "dispatch",
        {
            "dispatch": "Drums and jars go to a customer.",
            "take-back": "Something a customer had comes back.",
            "discard": "Honey is thrown away.",
        },
    ),
    Station(
        "Bulk trade",
        "trade",
        {
            "approve": "A customer says what they think of a sample.",
            "buyers-weight": "The buyer's scale says otherwise: of a whole dispatch note, or of "
            "one drum.",
            "transfer-title": "Stored drums get another owner and stay where they are.",
            "empties": "Containers a customer had come back empty, or never will.",
            "owed": "List the containers that are with customers, or with one.",
            "gate-sales": "List what went at the farm gate, day by day.",
        },
    ),
    Station(
        "Bulk trade",
        "drum_lists",
        {"drum-list": "List drums with gross, tare, net, moisture, colour and seal."},
    ),
    Station(
        "Quality",
        "measuring",
        {
            "measure": "Note readings of a lot, and a laboratory's results.",
            "calibrate": "Note what an instrument read of something known.",
            "in-doubt": "List what was read with an instrument found off, since it was last found "
            "right.",
        },
    ),
    Station(
        "Quality",
        "quality",
        {
            "draw-sample": "Draw a sample from one lot or more.",
            "hold": "Put a lot, a pallet or a yard's pulls on hold.",
            "clear": "Free one lot of a hold that stays.",
            "release": "End a hold.",
            "holds": "List the holds that are open, and what they reach.",
        },
    ),
    Station(
        "Putting right",
        "corrections",
        {
            "amend": "The honey is gone and the books were wrong.",
            "narrow": "Take one row of 0 g out of a lot's reach, by name.",
            "reverse": "Undo an entry that nothing is built on, or a whole chain.",
        },
    ),
    Station(
        "Putting right",
        "recalls",
        {"recall": "A recall from its first hour to its closing report."},
    ),
    Station(
        "Putting right",
        "drills",
        {"drill": "Rehearse a recall: back and forward from a jar, against the clock."},
    ),
    Station(
        "Questions",
        "tracing",
        {
            "trace": "Trace a code back to its yards, or forward to customers and stock.",
            "through": "Show what went through a vessel, sieve or scale in a stretch of time, and "
            "where it went.",
        },
    ),
    Station("Questions", "cards", {"lot": "Show a lot's card."}),
    Station(
        "Questions",
        "stock",
        {
            "stock": "List what is on hand.",
            "mass-balance": "Show what went in and what came out, of a run, a lot or the house.",
        },
    ),
    Station(
        "Questions",
        "season",
        {"season": "Show a season: pace, today, yards, weeks, moisture, colour, losses or drums."},
    ),
    Station(
        "Questions",
        "today",
        {"today": "Show what there is to do today, by station."},
    ),
    Station(
        "Questions",
        "season_reports",
        {
            "yields": "Show what a season gave: yards, crews, forages, weeks, seasons, slips or "
            "weather.",
            "losses": "Show a season's losses: out (of the usual), runs, machines, limits or wax.",
        },
    ),
    Station(
        "Questions",
        "planning",
        {
            "plan": "Plan a season's work; propose a blend, a bottling or runs that keep a later "
            "recall small."
        },
    ),
    Station(
        "Questions",
        "residues",
        {
            "residue": "Show what a residue in CODE comes to in all that was made of it, at most "
            "and as expected."
        },
    ),
    Station(
        "Questions",
        "exposure",
        {
            "exposure": "Show how large a recall would be today: of CODE, or of each source, and "
            "what makes it so."
        },
    ),
    Station("Questions", "export", {"export": "Write the ledger's own rows as a table."}),
    Station(
        "Questions",
        "claims",
        {"claims": "Show what a label may claim of a lot, and which lots speak against it."},
    ),
    Station(
        "Questions",
        "wording",
        {"wording": "Show what a jar's label has to say, market by market, and what is missing."},
    ),
    Station(
        "Reckoning",
        "limits",
        {"limits": "Show what a market or grade asks of honey, and judge results by it."},
    ),
    Station(
        "Reckoning",
        "net",
        {
            "net": "Judge jars weighed by their declared net: mean, spread, short ones, what "
            "to fill to."
        },
    ),
    Station(
        "Reckoning",
        "reckoning",
        {
            "reckon": "Reckon with figures of the trade, without a house: moisture, keeping, air, "
            "heat, dips.",
        },
    ),
    Station(
        "Papers",
        "papers",
        {
            "labels": "Print to a PDF: pallet tags, drum, jar, case and yard labels, badges, "
            "dispatch notes."
        },
    ),
    Station(
        "Papers",
        "retail_codes",
        {
            "retail-codes": "Print the code a till reads off a product's jars (EAN-13, UPC-A or "
            "EAN-8) to a PDF."
        },
    ),
    Station(
        "Papers",
        "sheets",
        {"paper": "Print a paper of KIND to a PDF, ABOUT a lot, a pallet, a day or a year."},
    ),
    Station(
        "Papers",
        "inspection",
        {
            "inspector": "Write one pack for an inspector about CODE, a jar or a lot; no customer "
            "is in it."
        },
    ),
    Station(
        "The program",
        "tour",
        {"tour": "Walk through the main job on a copy of the sample season."},
    ),
    Station(
        "The program",
        "settings",
        {"settings": "What this computer remembers: house, operator, station, look."},
    ),
    Station(
        "The program",
        "upkeep",
        {"upkeep": "The owner's work on the house itself: upgrade, guards, projections."},
    ),
    Station("The program", "window", {"window": "Open the window."}),
)
