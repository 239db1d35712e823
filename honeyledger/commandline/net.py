"""Net contents in the terminal: what jars weighed say by the rule of a market."""

from collections.abc import Sequence

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.net_contents import NetCheck, NetRule, Plan, checked, named
from honeyledger.domain.units import parse_count, parse_mass_g, parse_mean_net_mg
from honeyledger.exchange.net_contents import USUAL, net_rules

LOCAL_RULE = "What counts is the rule where the jars are sold."


@click.command(cls=Asking)
@click.argument("declared")
@click.argument("weights", nargs=-1, metavar="[GRAMS]...")
@click.option(
    "--empty", metavar="GRAMS", help="What the empty jar weighs; weights are gross then."
)
@click.option("--lot", metavar="COUNT", help="How many jars there are of it.")
@click.option("--rule", "name", default=USUAL, help="average, oiml-r87, new-zealand or us.")
@click.pass_obj
def net(
    desk: Desk,
    declared: str,
    weights: Sequence[str],
    empty: str | None,
    lot: str | None,
    name: str,
) -> None:
    """Judge jars weighed by their declared net: mean, spread, short ones, what to fill to.

    A rule that nobody has seen in its source is shown as unverified and decides nothing. Without
    weights, how many to weigh and when one is short.

    \b
    Example: honeyledger net 500 502.1 501.4 499.2 --lot 1120
    """
    rule = named(net_rules(resource("net_contents")), name)
    net_g = parse_mass_g(declared, "g", field="declared")
    tare_mg = parse_mean_net_mg(empty, field="empty") if empty else 0
    jars = parse_count(lot, "a number of jars", field="lot") if lot else 0
    weighed = [parse_mean_net_mg(one, field="weights") - tare_mg for one in weights]
    check = checked(rule, net_g, weighed, jars)
    desk.answer(_json(check, rule.wanted(jars)), lambda: _show(check, rule, rule.wanted(jars)))


def _json(check: NetCheck, plan: Plan) -> dict[str, object]:
    return {
        "rule": check.rule.name,
        "verified": check.is_verified,
        "declared_g": check.net_g,
        "weigh": plan.weigh,
        "short_below_mg": check.limits.short_mg,
        "far_short_below_mg": check.limits.far_short_mg,
        "weighed": check.weighed,
        "mean_mg": check.mean_mg,
        "spread_mg": check.spread_mg,
        "short": check.short,
        "far_short": check.far_short,
        "may_be_short": check.may_be_short,
        "verdict": check.verdict.value,
        "fill_to_mg": check.target_mg,
    }


def _show(check: NetCheck, rule: NetRule, plan: Plan) -> None:
    limits = check.limits
    far = f", far short below {_g(limits.far_short_mg)}" if limits.far_short_mg else ""
    say(f"{rule.title}: short below {_g(limits.short_mg)}{far}; weigh {plan.weigh}.")
    if check.weighed:
        say(
            f"{check.weighed} weighed: mean {_g(check.mean_mg)}, spread {_g(check.spread_mg)}, "
            f"{check.short} short (of so many {check.may_be_short} may be), "
            f"{check.far_short} far short."
        )
        told = check.verdict.value if check.is_verified else "unverified, so it decides nothing"
        say(f"Verdict: {told}.")
    if check.target_mg is not None:
        say(f"With this spread, fill to {_g(check.target_mg)} or more.")
    say(f"Source: {rule.source}; {rule.as_of}. {LOCAL_RULE}")


def _g(mg: int) -> str:
    return f"{mg / 1000:.1f} g"
