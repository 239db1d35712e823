"""What the season's page asks besides: the day's work, and the next pulls."""

from collections.abc import Sequence
from dataclasses import replace

from honeyledger.domain.checks import ListedCheck
from honeyledger.services.day_sheet import day_sheet
from honeyledger.services.pulling import Asked, pulling_plan
from honeyledger.services.routing import Router
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.store import View


def with_pulls(view: View, page: SeasonPage, router: Router, now_ms: int) -> SeasonPage:
    """The page with the yards to pull next, in the season that is going on."""
    if not page.is_now:
        return page
    return replace(page, pulling=pulling_plan(view, Asked(), router, now_ms))


def with_sheet(
    view: View, page: SeasonPage, checks: Sequence[ListedCheck], now_ms: int
) -> SeasonPage:
    """The page with what there is to do today."""
    return replace(page, today_sheet=day_sheet(view, now_ms, checks))
