"""The site diary as plain text: one room under the other, then what the plan asks of people."""

from __future__ import annotations

from sequencer.plan import Plan
from sequencer.views.clock import Clock
from sequencer.views.columns import rooms_of
from sequencer.views.foot import foot_of
from sequencer.views.lines import Line, laid_out, page, plain_line, wrapped
from sequencer.views.table import legend, table_of
from sequencer.views.titles import plan_of_start_day

WIDTH = 80


def diary(plan: Plan, width: int = WIDTH) -> str:
    """The whole plan as a page of `width` characters."""
    return page(diary_lines(plan, width))


def diary_lines(plan: Plan, width: int = WIDTH) -> list[Line]:
    """The page as lines of pieces: head, a table a room, the marks, the foot."""
    lines: list[Line] = []
    for room in rooms_of(plan):
        lines += [plain_line(text, "head") for text in head_of(plan, room, width)]
        lines += table_of(plan, room, width)[1]
        lines.append(plain_line(""))
    lines += [plain_line(text, "quiet") for text in legend(width)]
    lines.append(plain_line(""))
    return lines + [plain_line(text) for text in laid_out(foot_of(plan), width)]


def head_of(plan: Plan, room: str, width: int) -> list[str]:
    """Title, air and hand-over on one line, above the first room what plan it is, where that could be mistaken."""
    above = plan_of_start_day(plan) if room == rooms_of(plan)[0] else []
    return [*(line for text in above for line in wrapped(text, width)), *_title(plan, room, width)]


def _title(plan: Plan, room: str, width: int) -> list[str]:
    """On one line; where that does not fit, the air on a line of its own."""
    title = plan.title
    if len(rooms_of(plan)) > 1:
        title = f"{title}: {plan.room_titles.get(room, room)}"
    air = plan.air_words.get(room, "")
    end = f"hand over {Clock(plan.zone).at_brief(plan.finish)}"
    spare = width - len(title) - len(air) - len(end)
    if spare >= 4:
        return [f"{title}{' ' * (spare // 2)}{air}{' ' * (spare - spare // 2)}{end}"]
    first = f"{title}  {end:>{width - len(title) - 2}}" if len(title) + len(end) + 2 <= width else title
    rest = [air] if first.endswith(end) else [f"{air}  {end:>{max(0, width - len(air) - 2)}}"]
    return [first, *filter(None, rest)]
