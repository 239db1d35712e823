"""What a label may claim of honey: each claim, what the books say, and which lots decide."""

from collections.abc import Sequence

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.claims import Claimed, Claims
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.ledger.mixing import few
from honeyledger.ledger.verbs.claiming import JudgeClaims
from honeyledger.services.claims import LotClaims, lot_claims, shares_text
from honeyledger.services.label_marks import LabelWarning
from honeyledger.services.labelling import jar_warnings

LOCAL_CODE = "Whether a claim may be made at all is a matter of your local labelling code."
NAMES = {
    "yard": "one yard",
    "region": "one region",
    "floral": "one floral kind",
    "crop": "one crop year",
    "organic": "organic",
    "country": "one country",
    "countries": "countries with shares",
    "market": "every source known",
}


@click.command(cls=Asking)
@click.argument("code")
@click.pass_obj
def claims(desk: Desk, code: str) -> None:
    """Show what a label may claim of a lot, and which lots speak against it.

    CODE is any lot's. Of jars, what was sealed as they were bottled is shown beside, and what
    their product's label says that the books refuse.

    \b
    Example: honeyledger claims J26-0001-A
    """
    now_ms, markets = desk.house.clock(), shipped_markets(resource("labels", "content"))
    found, warnings = desk.ask(
        lambda view: (lot_claims(view, code), jar_warnings(view, code, now_ms, markets))
    )
    desk.answer(_json(found, warnings), lambda: _show(found, warnings))


@click.command("judge-claims", cls=Recording)
@click.argument("lot")
@click.argument("reason")
@click.pass_obj
def judge_claims(desk: Desk, lot: str, reason: str) -> None:
    """Judge the claims of jars again, after a record was put right.

    Their label is held against what the books say now, by name and with a reason; what was sealed
    as they were bottled stays in its entry.

    \b
    Example: honeyledger judge-claims J26-0004-T "the yard's certificate was not on record"
    Undo: reverse the entry.
    """
    desk.record(JudgeClaims(lot, reason))


def _show(found: LotClaims, warnings: Sequence[LabelWarning]) -> None:
    if found.now is None:
        say(f"{found.code} holds no honey of which anything could be claimed.")
        return
    columns = [Column("claim"), Column("by the books"), Column("comes to"), Column("decided by")]
    if found.sealed is not None:
        columns.insert(2, Column("as bottled"))
    table(columns, [_row(one, found.sealed) for one in found.now.claims])
    say(f"Countries: {shares_text(found.now.countries)}.")
    for one in found.now.countries:
        if one.name and one.lowest != one.highest:
            lowest, highest = one.lowest / 10, one.highest / 10
            say(f"Of any one jar {one.name} may be {lowest:.1f} to {highest:.1f} %.")
    for refusal in found.against:
        say(refusal.text)
    for warned in warnings:
        unverified = "" if warned.is_verified else "; unverified"
        say(f"{warned.text} ({warned.source}{unverified})")
    say(LOCAL_CODE)


def _row(one: Claimed, sealed: Claims | None) -> list[str]:
    name = NAMES.get(one.claim) or f"eligible for {', '.join(one.says)}"
    comes_to = "" if one.claim.startswith("market/") else few(one.says)
    row = [name, one.ruling.value, comes_to, few(one.lots)]
    if sealed is not None:
        row.insert(2, sealed.of(one.claim).ruling.value)
    return row


def _json(found: LotClaims, warnings: Sequence[LabelWarning]) -> dict[str, object]:
    return {
        "code": found.code,
        "now": _claims_json(found.now),
        "as_bottled": _claims_json(found.sealed),
        "label_refused": [one.text for one in found.against],
        "label_warnings": [
            {"text": str(one.text), "source": str(one.source), "verified": one.is_verified}
            for one in warnings
        ],
    }


def _claims_json(claims: Claims | None) -> dict[str, object] | None:
    if claims is None:
        return None
    return {
        "claims": [
            {
                "claim": one.claim,
                "ruling": one.ruling.value,
                "says": list(one.says),
                "lots": list(one.lots),
                "sources": list(one.sources),
            }
            for one in claims.claims
        ],
        "countries_permille": [
            {
                "name": one.name,
                "share": one.share,
                "lowest": one.lowest,
                "highest": one.highest,
            }
            for one in claims.countries
        ],
    }
