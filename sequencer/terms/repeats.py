"""Steps that facts bring: what a failed hold repeats, and work that was found and waits for the client's yes."""

from __future__ import annotations

from dataclasses import replace

from sequencer.terms.fact import CLIENT, Fact
from sequencer.terms.hearing import sibling
from sequencer.terms.job import Job, Link, Step, Trade
from sequencer.terms.recipe import Hours
from sequencer.terms.words import OWN_TRADE

AGAIN = "again"
YES, YES_MINUTES = "yes", 15
"""The client's answer: its step, and how long it takes [min]."""


def repeated(job: Job, fact: Fact) -> Job:
    """The job after a hold has failed: the steps it names once more, in their order, and the hold itself.

    What the hold holds up waits for the new hold. A named step that follows the hold anyway is done first as it stands
    (the water let out), and once more after the new hold. A state is taken back again only if it is given again.
    """
    hold = job.step(fact.about)
    behind = _behind(job, hold)
    named = _named(job, hold, behind)
    once_more = [*named, hold.id]
    new = {id: f"{_family(job, hold)}/{job.step(id).name}" for id in once_more}
    first = {id for id in named if id in behind}
    given = {given.state for id in once_more for given in job.step(id).gives}
    copies: list[Step] = []
    before = hold.id
    for id in once_more:
        old = job.step(id)
        links = tuple(replace(link, id=new[link.id]) for link in old.links if link.id in new)
        if not links:
            purpose = next((word for word in (old.name, "next") if job.step(before).wait_for(word)), None)
            then = before if before in first or before == hold.id else new[before]
            links = (Link(then, purpose, "recipe", fact.place),)
        failed = tuple(new[other] for other in old.if_failed if other in new)
        back = tuple(each for each in old.takes_back if each.word in given)
        copy = replace(old, id=new[id], title=f"{old.title}, {AGAIN}", links=links, if_failed=failed, takes_back=back)
        copies.append(copy)
        before = id
    steps = tuple(step if step.id in first else _also_after(step, new) for step in job.steps)
    return replace(job, steps=(*steps, *copies))


def _named(job: Job, hold: Step, behind: set[str]) -> list[str]:
    """Ids of the steps a failed hold repeats, with those that end a closing of one of them: in front if they follow the
    hold anyway, else after the step that closes."""
    named: list[str] = []
    front: list[str] = []
    for id in (*(id for id in hold.if_failed if id != hold.id), hold.id):
        closing = job.step(id).closing
        until = [sibling(hold, closing.until_done)] if closing is not None and closing.until_done is not None else []
        front += [end for end in until if end in behind and end not in hold.if_failed]
        named += [id, *(end for end in until if end not in behind and end not in hold.if_failed)]
    return list(dict.fromkeys(id for id in (*front, *named) if id != hold.id))


def _behind(job: Job, hold: Step) -> set[str]:
    """Ids of the steps of the hold's recipe that follow it by their links."""
    family = [step for step in job.steps if step.id.rpartition("/")[0] == hold.id.rpartition("/")[0]]
    found = {hold.id}
    for _ in family:
        found |= {step.id for step in family if any(link.id in found for link in step.links)}
    return found - {hold.id}


def _family(job: Job, hold: Step) -> str:
    """The name the repeated steps go by: "bathroom/wetroom-membrane again", then "... again 2"."""
    family = hold.id.rpartition("/")[0].partition(f" {AGAIN}")[0]
    taken = {step.id.rpartition("/")[0] for step in job.steps}
    count = 1
    while (name := f"{family} {AGAIN}" + (f" {count}" if count > 1 else "")) in taken:
        count += 1
    return name


def _also_after(step: Step, new: dict[str, str]) -> Step:
    """A step that follows what is repeated follows the repetition too."""
    more = (replace(link, id=new[link.id]) for link in step.links if link.id in new and step.id not in new)
    return replace(step, links=(*step.links, *more))


def found(job: Job, fact: Fact) -> Job:
    """The job with extra work where a step brought it to light: the client says yes, it is done, then what follows."""
    assert fact.minutes is not None
    where = job.step(fact.about)
    what = fact.words.partition(",")[0].strip().replace("/", " ")
    use = f"found-{fact.number}"
    trade = fact.by or OWN_TRADE
    yes = _plain(where, fact, f"{where.room}/{use}/{YES}", f"Your client's yes: {what}", CLIENT, YES_MINUTES)
    yes = replace(yes, kind="hold", hold=f"extra work, {what}", use=use, surfaces=(), stands="elsewhere")
    work = _plain(where, fact, f"{where.room}/{use}/{what}", f"Found: {what}", trade, fact.minutes)
    links = tuple(Link(id, None, "my order", fact.place) for id in (yes.id, where.id))
    work = replace(work, use=use, links=links)
    then = Link(work.id, None, "my order", fact.place)
    steps = (
        replace(step, links=(*step.links, then)) if any(link.id == where.id for link in step.links) else step
        for step in job.steps
    )
    trades = job.trades if CLIENT in job.trades else {**job.trades, CLIENT: _client(job, fact)}
    return replace(job, steps=(*steps, yes, work), trades=trades)


def _plain(where: Step, fact: Fact, id: str, title: str, trade: str, minutes: int) -> Step:
    return Step(
        id=id,
        title=title,
        room=where.room,
        use=where.use,
        recipe=where.recipe,
        name=id.rpartition("/")[2],
        kind="work",
        trade=trade,
        minutes=minutes,
        hours=Hours(minutes, 0.0, 0.0, 1.0, 1.0, "site book", fact.place),
        surfaces=where.surfaces,
        place=fact.place,
    )


def _client(job: Job, fact: Fact) -> Trade:
    """The client answers at some hour of your working days: counted as answered by the end of one."""
    return Trade(CLIENT, job.trades[OWN_TRADE].days, fact.place, hour_known=False)
