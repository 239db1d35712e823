"""What the bottling says of net contents: the jars weighed, a mean that is typed, the target."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.bottling.rows import grams_of, tr
from honeyledger.domain.net_contents import NetCheck, Verdict, verdict
from honeyledger.domain.units import format_number


def net_message(check: NetCheck) -> Message:
    """What the jars weighed say; the rule's name stands behind its verdict."""
    mean, limits = grams_of(check.mean_mg), check.limits
    short, far = grams_of(limits.short_mg), grams_of(limits.far_short_mg)
    below = check.net_g * 1000 - check.mean_mg
    words = {
        Verdict.NONE_WEIGHED: (Mark.NOTE, "", ""),
        Verdict.IN_ORDER: (
            Mark.READY,
            tr("In order:"),
            tr("mean {mean} g, declared {net} g. Check your local rule."),
        ),
        Verdict.LOW_BY_CHANCE: (
            Mark.WARNING,
            tr("Mean {below} g low."),
            tr("It may be chance; weigh more jars, or fill a little more."),
        ),
        Verdict.LOW_MEAN: (
            Mark.WARNING,
            tr("Mean {below} g low."),
            tr("Fill more: the mean may not be below {net} g."),
        ),
        Verdict.MANY_SHORT: (
            Mark.WARNING,
            tr("{n} jars below {short} g."),
            tr("No more than {most} of so many may be. Set the filler, and sort the jars."),
        ),
        Verdict.FAR_SHORT: (
            Mark.WARNING,
            tr("{far_short} below {far} g."),
            tr("Such a jar may not go out. Take it out, and set the filler."),
        ),
    }[check.verdict]
    mark, lead, text = words
    if not check.is_verified and check.weighed:
        # What was never seen in its source passes and fails nothing.
        lead = tr("Unverified:")
        mark, text = Mark.NOTE, tr("mean {mean} g, {n} jars below {short} g. It decides nothing.")
    facts = {
        "mean": mean,
        "net": check.net_g,
        "below": grams_of(max(0, below)),
        "n": check.short,
        "short": short,
        "most": check.may_be_short,
        "far": far,
        "far_short": tr("One jar is")
        if check.far_short == 1
        else tr("{n} jars are").format(n=check.far_short),
    }
    return Message(mark, lead.format(**facts), text.format(**facts))


def mean_message(check: NetCheck, mean_mg: int) -> Message:
    """What a mean that is typed says, as the mean of the jars weighed, or of none."""
    weighed = (check.weighed or 1, mean_mg * (check.weighed or 1), check.spread_mg)
    found = verdict(check.net_g, weighed, check.rule.plan_of(check.weighed), (0, 0))
    facts = {
        "mean": grams_of(mean_mg),
        "net": check.net_g,
        "below": grams_of(max(0, check.net_g * 1000 - mean_mg)),
    }
    lead, mark = tr("Mean {mean} g:"), Mark.NOTE
    if found is Verdict.IN_ORDER:
        text = tr("not below the declared {net} g.")
    elif found is Verdict.LOW_BY_CHANCE:
        mark, text = Mark.WARNING, tr("{below} g low, which may be chance by the jars weighed.")
    else:
        mark, text = Mark.WARNING, tr("{below} g below the declared {net} g.")
    if not check.is_verified:
        mark = Mark.NOTE
    return Message(mark, lead.format(**facts), text.format(**facts))


def rule_title(check: NetCheck) -> str:
    """What the rule is called."""
    titles = {
        "average": tr("average system"),
        "oiml-r87": tr("average system, OIML R 87"),
        "new-zealand": tr("average system, New Zealand"),
        "us": tr("US plan, unverified"),
    }
    return titles.get(check.rule.name, check.rule.title)


def rule_words(check: NetCheck) -> str:
    """Which rule it is and where it is written, and that another may hold."""
    limits = check.limits
    words = tr("{rule}: {source}. Short below {short} g. Check your local rule.")
    if limits.far_short_mg:
        words = tr(
            "{rule}: {source}. Short below {short} g, far short below {far} g. Check your local "
            "rule."
        )
    title = rule_title(check)
    return words.format(
        rule=title[:1].upper() + title[1:],
        source=check.rule.source,
        short=grams_of(limits.short_mg),
        far=grams_of(limits.far_short_mg),
    )


def net_heading(check: NetCheck) -> str:
    """Over the figures: by which rule they are."""
    return tr("By the {rule}; check your local rule").format(rule=rule_title(check))


def target_words(check: NetCheck) -> str:
    """What a filler of this spread is to be set to; "" while too few jars are weighed."""
    if check.target_mg is None:
        return ""
    words = tr("fill to {target} g")
    return words.format(target=grams_of(check.target_mg))


def _mean(check: NetCheck) -> str:
    if not check.weighed:
        return "–"
    mean = grams_of(check.mean_mg)
    return f"{mean} ± {grams_of(check.spread_mg)}" if check.weighed > 1 else mean


def net_figures(check: NetCheck, lot: int) -> list[KeyFigure]:
    """The sample in figures: how many of how many, mean and spread, the short ones."""
    is_weighed, wanted = bool(check.weighed), check.rule.wanted(lot).weigh
    nearly = check.short - check.far_short
    short = f"{format_number(nearly)} + {format_number(check.far_short)}"
    return [
        KeyFigure(format_number(check.weighed), tr("weighed of {n}").format(n=wanted)),
        KeyFigure(_mean(check), tr("mean ± spread, g")),
        KeyFigure(short if is_weighed else "–", tr("short + far")),
    ]
