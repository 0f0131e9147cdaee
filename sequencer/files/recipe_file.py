"""A recipe as its file says it, and the Recipe it makes with a job's changes, done its usual way or another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, cast

from sequencer.files.changed_steps import changed
from sequencer.files.check_recipe import recipe_faults
from sequencer.files.recipe_model import RecipeModel, StepModel
from sequencer.files.vocabulary import STANDS, TOILET
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import Given, Hours, Kind, Recipe, RecipeStep, Way
from sequencer.terms.words import OWN_TRADE

Changes = dict[str, StepModel]


@dataclass(frozen=True)
class RecipeFile:
    """A recipe as written, to be made with or without a job's changes.

    `places`: where each step's name stands. `ways`: what each other way changes; `way_places`: where its name stands.
    """

    model: RecipeModel
    place: Place
    places: dict[str, Place]
    sources: dict[str, str]
    ways: dict[str, Changes]
    way_places: dict[str, Place]

    @property
    def name(self) -> str:
        return self.model.recipe

    def all_given(self) -> list[Given]:
        """Every state the recipe gives."""
        own = [given for step in self.model.steps.values() for given in step.gives or ()]
        return [*own, *(self.model.gives or ())]

    def all_states(self) -> set[str]:
        """Every state the recipe gives, needs or follows."""
        models: tuple[RecipeModel | StepModel, ...] = (self.model, *self.model.steps.values())
        heard = {named.word for one in models for named in (*(one.needs or ()), *(one.follows or ()))}
        return heard | {given.state for given in self.all_given()}

    def made(
        self, faults: list[Fault], changes: Changes | None = None, by: str | None = None, way: str | None = None
    ) -> Recipe:
        """The recipe, done the way of this name, with a job's changes to its steps and somebody else for your steps.

        Every other way is made too, and its faults told.
        """
        steps = self._steps(changes or {}, by, way, faults)
        head = self.model
        recipe = Recipe(
            name=head.recipe,
            title=head.title,
            place=self.place,
            steps=tuple(steps.values()),
            covers=head.covers or "",
            sources=self.sources,
            cautions=head.cautions or (),
            open_framing=bool(head.open_framing),
            cable=head.cable,
            ways=tuple(self._way(name, changes or {}, by, faults) for name in self.ways),
        )
        found = [*recipe_faults(recipe), *(fault for name in self.ways for fault in recipe_faults(recipe.done(name)))]
        faults.extend(dict.fromkeys(found))
        return recipe

    def _way(self, name: str, changes: Changes, by: str | None, faults: list[Fault]) -> Way:
        model = self.model.ways[name]
        steps = self._steps(changes, by, name, faults)
        other = tuple(step for step in steps.values() if step.name in self.ways[name])
        return Way(name, model.title, self.way_places[name], other, model.costs)

    def _steps(
        self, changes: Changes, by: str | None, way: str | None, faults: list[Fault]
    ) -> dict[str, RecipeStep]:
        others = self.ways[way] if way is not None else {}
        models = {
            name: changed(changed(model, others.get(name)), changes.get(name))
            for name, model in self.model.steps.items()
        }
        first, last = next(iter(models)), next(reversed(models))
        wrong: list[Fault] = []
        steps = {name: self._step(name, step, name == first, name == last, by, wrong) for name, step in models.items()}
        faults.extend(fault for fault in wrong if fault not in faults)
        return steps

    def _step(
        self, name: str, step: StepModel, first: bool, last: bool, by: str | None, faults: list[Fault]
    ) -> RecipeStep:
        head, place = self.model, self.places[name]
        if step.hours is None:
            what = f'the step "{name}" has no hours'
            faults.append(Fault(place, what, "add hours: 2 h and the letter of its source"))
        if step.keep_off is not None and step.leave_it is not None:
            faults.append(Fault(step.leave_it.place, "keep off and leave it exclude each other", "keep one of the two"))
        if step.hold is not None and step.kind is not None:
            faults.append(Fault(place, "a hold has no other kind", "leave out kind:"))
        trade = step.by or OWN_TRADE
        return RecipeStep(
            name=name,
            title=step.do or name,
            place=place,
            kind=cast(Kind, "hold" if step.hold is not None else step.kind or "work"),
            trade=by if by is not None and trade == OWN_TRADE else trade,
            hours=step.hours or _no_hours(place),
            surfaces=step.works_on if step.works_on is not None else head.works_on or (),
            one_go="in one go" in (step.manner or ()),
            wet_film="wet film" in (step.manner or ()),
            makes=step.makes or (),
            stands=STANDS[step.stands or "on the floor"],
            hands=step.hands or 1,
            where=step.place,
            after=_after(step),
            needs=_joined(step.needs, head.needs if first else None),
            follows=_joined(step.follows, head.follows if first else None),
            gives=_joined(step.gives, head.gives if last else None),
            takes_back=_joined(step.takes_back, head.takes_back if first else None),
            air=step.air or (),
            waits=step.ready_for or (),
            water=step.water,
            why=step.why,
            closing=step.keep_off or step.leave_it,
            services_off=step.off or (),
            noisy=bool(step.noise),
            lift=bool(step.lift),
            look_in=step.look_in,
            fumes=step.fumes,
            toilet=TOILET[step.toilet] if step.toilet else None,
            hold=step.hold,
            if_failed=step.if_failed or (),
            if_too_late=step.if_too_late,
            record=step.record or (),
            cautions=step.cautions or (),
        )


def _joined(own: tuple[Any, ...] | None, head: tuple[Any, ...] | None) -> tuple[Any, ...]:
    return tuple(own or ()) + tuple(head or ())


def _after(step: StepModel) -> tuple[tuple[str, str | None, Place], ...] | None:
    if step.after is None:
        return None
    return tuple((ref.who, ref.purpose, ref.place) for ref in step.after if ref.who != "start")


def _no_hours(place: Place) -> Hours:
    return Hours(60.0, 0.0, 0.0, 1.0, 1.0, "", place)
