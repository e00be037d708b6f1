"""What several charts share: the lock, the fonts, axes, the key, days along an axis, the trend.

The library is not made for several threads: whoever draws does it inside `drawing`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from functools import cache
from math import ceil, floor
from threading import Lock
from typing import Any, cast

from matplotlib import font_manager, rc_context
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.legend import Legend

from app import resources
from app.domain.loads import day_text
from app.domain.progress.series import band_at
from app.domain.trend import Trend
from app.domain.units import in_units
from app.domain.wording import tr
from app.ui.charts.look import Look

_DRAWING = Lock()

_DAY_STEPS = (1, 7, 14, 28, 56, 91, 182, 364, 728)
_FEWEST_DAYS = 14
"""An axis shows at least so many days."""

_MONDAY = 1  # 1 January of the year 1 was a Monday

_SETTINGS: dict[str, object] = {
    "font.family": ["Noto Sans", "Gentium Plus", "DejaVu Sans"],
    "text.parse_math": False,  # a dollar in a name is a dollar
    "hatch.linewidth": 0.7,
    "pdf.fonttype": 42,  # whole TrueType fonts, which every reader can show and copy from
    "svg.fonttype": "path",
    "svg.hashsalt": "weekloom",
}


@contextmanager
def drawing() -> Iterator[None]:
    """Draw inside the block: alone, with the shipped fonts and with text taken as it is."""
    with _DRAWING:
        _register_fonts()
        with rc_context(cast(Any, _SETTINGS)):
            yield


@cache
def _register_fonts() -> None:
    """Let the library find the shipped fonts, so that every system draws the same letters."""
    for name in ("NotoSans-Regular", "NotoSans-Bold", "GentiumPlus-Regular"):
        font_manager.fontManager.addfont(str(resources.path_of(f"fonts/{name}.ttf")))


def x_of(day: date) -> float:
    """Where a day stands along an axis of days."""
    return float(day.toordinal())


def day_of(x: int) -> date:
    """The day that stands there."""
    return date.fromordinal(x)


class Pen:
    """A figure with the marks that several charts share."""

    def __init__(self, figure: Figure, look: Look) -> None:
        self.figure, self.look = figure, look

    def axes(self, ylabel: str, *, place: tuple[int, int, int] = (1, 1, 1)) -> Axes:
        """Axes with quiet lines, a label at the left and figures in the shipped font."""
        look = self.look
        axes = self.figure.add_subplot(*place)
        axes.set_facecolor(look.ground)
        axes.set_ylabel(ylabel, fontsize=look.type_pt)
        axes.grid(axis="y", color=look.hair, linewidth=0.8)
        axes.set_axisbelow(True)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        for side in ("left", "bottom"):
            axes.spines[side].set_color(look.rule)
        axes.tick_params(
            colors=look.mid,
            labelsize=look.type_pt * 0.9,
            color=look.rule,
        )
        return axes

    def legend(self, axes: Axes, *, columns: int = 4) -> Legend:
        """The key above the axes, each sign with its word."""
        signs, words = axes.get_legend_handles_labels()
        last = (tr("no entry"), tr("week without one"))
        order = sorted(range(len(words)), key=lambda at: words[at] in last)
        return axes.legend(
            [signs[at] for at in order],
            [words[at] for at in order],
            loc="lower left",
            bbox_to_anchor=(0.0, 1.0),
            ncols=columns,
            frameon=False,
            fontsize=self.look.type_pt * 0.9,
            borderaxespad=0.2,
            handlelength=2.2,
            columnspacing=1.6,
        )

    def dates(self, axes: Axes) -> None:
        """A few days along the axis, the years below them."""
        low, high = axes.get_xlim()
        one, other = axes.dataLim.intervalx
        if axes.get_autoscalex_on() and other - one < _FEWEST_DAYS:
            # of a single day the library would make an axis of two centuries
            air = (_FEWEST_DAYS - (other - one)) / 2
            low, high = one - air, other + air
        first, last = ceil(low), floor(high)
        step = next((s for s in _DAY_STEPS if (last - first) / s <= 8), _DAY_STEPS[-1])
        days = [day_of(x) for x in range(first, last + 1) if (x - _MONDAY) % step == 0]
        axes.set_xticks(
            [x_of(day) for day in days], [day_text(day).rpartition(" ")[0] for day in days]
        )
        axes.set_xlim(low, high)
        years = sorted({day_of(first).year, day_of(last).year})
        axes.set_xlabel(" – ".join(map(str, years)), fontsize=self.look.type_pt * 0.9)

    def trend(self, axes: Axes, line: Trend, units: str) -> None:
        """The robust line, and about it the interval of its slope between thin dots."""
        look = self.look
        span = (line.last - line.first).days
        when = [day_of(line.first.toordinal() + round(span * n / 24)) for n in range(25)]
        x = [x_of(day) for day in when]
        bands = [band_at(line, day) for day in when]
        low = [in_units(kg, units) for kg, _ in bands]
        high = [in_units(kg, units) for _, kg in bands]
        axes.fill_between(
            x,
            low,
            high,
            facecolor=look.band,
            edgecolor=look.mid,
            linewidth=0.8,
            linestyle=":",
            alpha=0.75,
            label=tr("interval of the trend"),
            zorder=1,
        )
        middle = [in_units(line.at(day), units) for day in when]
        axes.plot(
            x, middle, color=look.accent, linewidth=1.8, dashes=(6, 2), label=tr("trend"), zorder=3
        )
