"""Steps met with the house: hours it is open or bears noise, a lift booked for long enough, fumes that can go."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator

from sequencer.files.check_people import one_day, steps_of_known
from sequencer.files.quantities import length_words
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Fault, Place


def house_faults(job: Job, places: dict[str, Place]) -> Iterator[Fault]:
    """Steps that no day of the house can hold, and firm visits at hours it does not allow."""
    noisy, open_ = _Longest(job, job.house.noise), _Longest(job, job.house.access)
    for step in steps_of_known(job):
        if job.trades[step.trade].days:
            yield from _noise(job, step, noisy, places[step.id])
            yield from _access(job, step, open_, places[step.id])
            yield from _lift(job, step, places[step.id])
            yield from _fumes(job, step, places[step.id])
    yield from _bookings(job)


class _Longest:
    """The most work a day of each trade holds in spans that are allowed [min]."""

    def __init__(self, job: Job, allowed: tuple[Span, ...] | None) -> None:
        self.job, self.allowed = job, allowed or ()
        self.known: dict[str, int] = {}

    def of(self, name: str) -> int:
        if name not in self.known:
            days = self.job.trades[name].days
            self.known[name] = max((_shared(day.spans, self._near(day.spans)) for day in days), default=0)
        return self.known[name]

    def _near(self, spans: tuple[Span, ...]) -> tuple[Span, ...]:
        first = bisect_right(self.allowed, spans[0][0], key=lambda span: span[1])
        last = bisect_left(self.allowed, spans[-1][1], key=lambda span: span[0])
        return self.allowed[first:last]

    def too_short(self, step: Step) -> bool:
        """True if no day holds a step, or where its work may pause, any of it."""
        known = self.job.trades[step.trade].hour_known
        longest = self.of(step.trade)
        return longest == 0 or (one_day(self.job, step) and known and step.minutes > longest)


def _noise(job: Job, step: Step, quiet: _Longest, place: Place) -> Iterator[Fault]:
    if step.noisy and job.house.noise is not None and quiet.too_short(step):
        what = f'"{step.name}" of "{step.use}" is noisy and takes {length_words(step.minutes)}'
        has = f'"{step.trade}" has {length_words(quiet.of(step.trade))} a day in the hours the house allows noise'
        yield Fault(place, f"{what}, and {has}", "allow noise longer, or change the hours")


def _access(job: Job, step: Step, there: _Longest, place: Place) -> Iterator[Fault]:
    if step.where is None and job.house.access is not None and there.too_short(step):
        what = f'"{step.name}" of "{step.use}" takes {length_words(step.minutes)}'
        has = f'"{step.trade}" has {length_words(there.of(step.trade))} a day in the hours the house is open'
        yield Fault(place, f"{what}, and {has}", "open the house longer (access), or change the hours")


def _lift(job: Job, step: Step, place: Place) -> Iterator[Fault]:
    lift, trade = job.house.lift, job.trades[step.trade]
    if not step.lift or lift is None:
        return
    hours = [span for day in trade.days for span in day.spans]
    longest = max((_shared([span], hours) for span in lift), default=0)
    if step.minutes > longest:
        what = f'"{step.name}" of "{step.use}" carries by the lift for {length_words(step.minutes)}'
        has = f'of the hours it is booked for "{trade.name}" works {length_words(longest)} at most'
        yield Fault(place, f"{what}, and {has}", "book it longer, as lift: [Tue 10 March 08:00-10:00]")


def _fumes(job: Job, step: Step, place: Place) -> Iterator[Fault]:
    gone = job.house.fumes_gone
    if step.fumes is None or not gone:
        return
    opens = [day.spans[0][0] for day in job.trades[step.trade].days]
    evenings = ((start, bisect_right(gone, start, key=lambda night: night[1])) for start in opens)
    room = max((gone[at][0] - start for start, at in evenings if at < len(gone)), default=0)
    if step.minutes + step.fumes.minutes > room:
        what = f'the fumes of "{step.name}" of "{step.use}" stay {length_words(step.fumes.minutes)}'
        never = f"are never gone by {job.house.fumes_words} on the day they begin"
        yield Fault(place, f"{what}, and {never}", "leave out fumes: under house: and let people sleep elsewhere")


def _bookings(job: Job) -> Iterator[Fault]:
    house = job.house
    for booking in job.bookings:
        step = job.step(booking.step)
        who = f'"{step.name}" of "{step.use}"'
        if step.noisy and house.noise is not None and not _inside(booking.at, house.noise):
            what = f"{who} is noisy, and the house allows noise {house.noise_words}"
            yield Fault(booking.place, what, "book an hour inside, or allow noise longer")
        if step.where is None and house.access is not None and not _inside(booking.at, house.access):
            what = f"{who} is booked for an hour at which the house is shut; it is open {house.access_words}"
            yield Fault(booking.place, what, "book an hour inside, or open it longer")
        if step.lift and house.lift is not None and not _inside(booking.at, house.lift):
            what = f"{who} is booked for an hour at which the lift is not"
            yield Fault(booking.place, what, "book the lift for the same hour")


def _inside(moment: Minute, spans: tuple[Span, ...]) -> bool:
    return any(start <= moment < end for start, end in spans)


def _shared(spans: Iterable[Span], others: Iterable[Span]) -> int:
    """The time two lists of spans share [min]."""
    return sum(max(0, min(b, d) - max(a, c)) for a, b in spans for c, d in others)
