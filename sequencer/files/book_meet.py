"""The facts of a site book, met with the job they are about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from sequencer.files.book import Book
from sequencer.files.wrong import nearest
from sequencer.terms.fact import CLIENT, OF_ORDERS, OF_STEPS, OF_TRADES, Fact
from sequencer.terms.job import Job, Step
from sequencer.terms.place import Fault
from sequencer.terms.with_facts import with_facts

BRINGS_STEPS = frozenset({"failed", "found"})
VERDICTS = frozenset({"passed", "failed"})


def with_book(job: Job, book: Book, faults: list[Fault]) -> Job:
    """The job with its site book; what the facts cannot be about goes to `faults`."""
    aside = (f"{place}: this line was cut short while it was written: set aside" for place in book.aside)
    job = replace(job, assumed=(*job.assumed, *aside))
    return with_facts(job, met(job, book.facts, faults))


def met(job: Job, facts: Iterable[Fact], faults: list[Fault]) -> tuple[Fact, ...]:
    """The facts, in line order, each met with the job as those before it have made it."""
    good: list[Fact] = []
    told: dict[tuple[str, str], Fact] = {(fact.kind, fact.about): fact for fact in job.facts}
    for each in facts:
        fact = _note_on_the_job(job, each)
        wrong = list(_wrong(job, fact, told))
        faults.extend(Fault(fact.place, what, write) for what, write in wrong)
        if not wrong:
            good.append(fact)
            told[fact.kind, fact.about] = fact
            if fact.kind in BRINGS_STEPS:
                job = with_facts(job, [fact])
    return tuple(good)


def _note_on_the_job(job: Job, fact: Fact) -> Fact:
    """A note whose first words happen to hold a stroke is no note on a step."""
    if fact.kind != "note" or not fact.about or fact.about in {step.id for step in job.steps}:
        return fact
    return replace(fact, about="", words=", ".join(filter(None, (fact.about, fact.words))))


def _wrong(job: Job, fact: Fact, told: dict[tuple[str, str], Fact]) -> Iterator[tuple[str, str]]:
    """What is wrong with a fact, and what to write."""
    steps = {step.id: step for step in job.steps}
    if fact.kind in OF_TRADES:
        known = [*job.trades, *([CLIENT] if fact.kind == "told" and CLIENT not in job.trades else [])]
        if fact.about not in known:
            yield f'nobody under people is called "{fact.about}"', nearest(fact.about, known)
    elif fact.kind in OF_ORDERS:
        orders = [order.name for order in job.orders]
        if fact.about not in orders:
            yield f'no order of this job is called "{fact.about}"', nearest(fact.about, orders)
    elif fact.kind == "measured" and "/" not in fact.about:
        rooms = [room.name for room in job.rooms]
        if fact.about not in rooms:
            yield f'no room of this job is called "{fact.about}"', nearest(fact.about, rooms)
    elif fact.kind in OF_STEPS or fact.about:
        if fact.about not in steps:
            yield f'no step of this job is called "{fact.about}"', nearest(fact.about, steps)
        else:
            yield from _wrong_step(job, fact, steps[fact.about], told)


def _wrong_step(job: Job, fact: Fact, step: Step, told: dict[tuple[str, str], Fact]) -> Iterator[tuple[str, str]]:
    waits = [wait.purpose for wait in step.waits]
    if fact.kind in VERDICTS and step.kind != "hold":
        yield f'"{step.id}" is no inspection', "write done"
    if fact.kind == "done" and step.kind == "hold":
        yield f'"{step.id}" is an inspection', "write passed or failed"
    if fact.purpose is not None and fact.purpose not in waits:
        yield f'"{step.id}" does not wait to be ready for "{fact.purpose}"', nearest(fact.purpose, waits)
    if fact.by is not None and fact.by not in job.trades:
        yield f'nobody under people is called "{fact.by}"', nearest(fact.by, job.trades)
    began = told.get(("began", fact.about))
    if fact.kind in {"done", *VERDICTS} and began is not None and fact.happened <= began.happened:
        yield f"it ended before it began (fact {began.number})", "correct one of the two"
    if fact.kind == "booked" and not _works(job, step, fact):
        yield f"{step.trade} does not work then", "write an hour inside their days and hours, or change those"


def _works(job: Job, step: Step, fact: Fact) -> bool:
    assert fact.at is not None
    spans = (span for day in job.trades[step.trade].days for span in day.spans)
    return any(start <= fact.at < end for start, end in spans)
