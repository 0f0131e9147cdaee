"""Steps met with the people who do them: known, enough of them, hours long enough, a moment to follow in time."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Iterator

from sequencer.files.quantities import length_words
from sequencer.files.wrong import nearest
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job, Step, Trade
from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Fault, Place


def unknown_trades(job: Job, places: dict[str, Place], unread: Collection[str]) -> list[Fault]:
    """Steps of somebody who is not under people, readable or not; each is told once for a use."""
    found: dict[tuple[Place, str], Step] = {}
    for step in job.steps:
        if step.trade not in job.trades and step.trade not in unread:
            place = step.place if step.place.file == job.place.file else places[step.id]
            found.setdefault((place, step.trade), step)
    return [
        Fault(
            place,
            f'nobody under people is called "{trade}", who does "{step.name}" of "{step.use}"',
            _who(trade, list(job.trades)),
        )
        for (place, trade), step in found.items()
    ]


def _who(trade: str, known: list[str]) -> str:
    close = nearest(trade, known)
    if close.startswith('write "'):
        return f"{close}, or call that one {trade} under people"
    return f"add {trade} under people"


def people_faults(job: Job, places: dict[str, Place]) -> Iterator[Fault]:
    """Steps no day of their people can hold, where it is known who they are."""
    longest_days = {name: _longest(trade) for name, trade in job.trades.items()}
    whole = {name: sum(_open(day.spans) for day in trade.days) for name, trade in job.trades.items()}
    for step in steps_of_known(job):
        trade, place = job.trades[step.trade], places[step.id]
        if step.hands > trade.hands:
            what = f'"{step.name}" of "{step.use}" takes {step.hands} hands, and "{trade.name}" has {trade.hands}'
            yield Fault(place, what, f"add hands: {step.hands} to {trade.name} under people")
        if not trade.days:
            continue
        longest = longest_days[trade.name]
        if one_day(job, step) and step.minutes > longest:
            yield Fault(
                place,
                f'"{step.name}" of "{step.use}" takes {length_words(step.minutes)} in one go, and the longest day of '
                f'"{trade.name}" has {length_words(longest)}',
                "split it into parts, or lengthen the hours",
            )
        elif step.minutes > whole[trade.name]:
            what = f'"{step.name}" of "{step.use}" takes {length_words(step.minutes)}'
            yield Fault(
                place, f'{what}, and "{trade.name}" works less than that in 40 weeks', "check the hours and the area"
            )
        for service in step.services_off:
            allowed = job.house.services.get(service)
            if allowed is not None and step.minutes > allowed:
                yield Fault(
                    place,
                    f'"{step.name}" of "{step.use}" takes the {service} off for {length_words(step.minutes)}, and the '
                    f"house allows {length_words(allowed)}",
                    "allow longer, or split the step",
                )


def steps_of_known(job: Job) -> Iterator[Step]:
    """The steps of people who are known."""
    return (step for step in job.steps if step.trade in job.trades)


def one_day(job: Job, step: Step) -> bool:
    """True if a step lies within one day: it says so, takes a service off, or its trade comes at some hour."""
    off = job.house.lived_in and bool(step.services_off)
    return step.one_go or off or not job.trades[step.trade].hour_known


def _open(spans: tuple[Span, ...]) -> int:
    return sum(end - start for start, end in spans)


def _longest(trade: Trade) -> int:
    return max((_open(day.spans) for day in trade.days), default=0)


def windows(job: Job, places: dict[str, Place]) -> Iterator[Fault]:
    """Waits that must be followed within a time in which their listener never works."""
    for hearing in hearings(job):
        if not {hearing.giver.trade, hearing.listener.trade} <= job.trades.keys():
            continue
        if hearing.wait is not None and hearing.wait.within_minutes is not None and not _can_follow(job, hearing):
            wait, giver, listener = hearing.wait, hearing.giver, hearing.listener
            yield Fault(
                places[listener.id],
                f'"{listener.name}" of "{listener.use}" must start within {length_words(wait.within_minutes or 0)} of '
                f'"{giver.name}", and "{listener.trade}" never works then',
                "change the days or hours, or who does it",
            )


def _can_follow(job: Job, hearing: Hearing) -> bool:
    """True unless no end of the giver leaves its listener an open minute in time; never False where a plan exists."""
    wait, giver, listener = hearing.wait, hearing.giver, hearing.listener
    assert wait is not None and wait.within_minutes is not None
    fixed = wait.law == "fixed"
    if wait.within_of_ready and not fixed:
        return True
    soonest = round((wait.hours if fixed else wait.floor_hours or 0.0) * 60)
    latest = wait.within_minutes + (soonest if wait.within_of_ready else 0)
    starts = [span for day in job.trades[listener.trade].days for span in _starts(job, listener, day.spans)]
    opens = [start for start, _ in starts]
    for day in job.trades[giver.trade].days:
        first, last = _ends(job, giver, day.spans)
        if first > last:
            continue
        at = bisect_left(opens, last + latest + 1) - 1
        if at >= 0 and starts[at][1] >= first + soonest:
            return True
    return False


def _starts(job: Job, step: Step, spans: tuple[Span, ...]) -> Iterator[tuple[Minute, Minute]]:
    """The first and last minutes in each span of a day at which the step may start."""
    left = _open(spans)
    need = step.minutes if one_day(job, step) else 1
    for start, end in spans:
        last = min(end - 1, start + left - need)
        if start <= last:
            yield start, last
        left -= end - start


def _ends(job: Job, step: Step, spans: tuple[Span, ...]) -> tuple[Minute, Minute]:
    """The first and last minutes of a day at which the step may be done."""
    if not job.trades[step.trade].hour_known:
        return spans[-1][1], spans[-1][1]
    need = step.minutes if one_day(job, step) else 1
    for start, end in spans:
        if need <= end - start:
            return start + need, spans[-1][1]
        need -= end - start
    return spans[-1][1] + 1, spans[-1][1]
