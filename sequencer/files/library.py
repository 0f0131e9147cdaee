"""The recipes a job can name: those that came with the program, and one's own, which win."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from sequencer.files.recipe import recipe_of
from sequencer.files.recipe_file import RecipeFile
from sequencer.files.shelf import recipes_folder
from sequencer.files.text import read_text
from sequencer.terms.place import Fault, Faulty, Place
from sequencer.terms.recipe import Recipe

OWN = "recipes"
"""The folder of one's own recipes, beside the job."""

SHIPPED = "shipped"
"""In places: the folder of the recipes that came with the program."""


class Library:
    """Recipes by name; a recipe stands in a file of its name and is read when it is first asked for."""

    def __init__(self, folder: Path | None) -> None:
        self.faults: list[Fault] = []
        self._own = _files(folder / OWN) if folder is not None else {}
        self._paths = {**_files(recipes_folder()), **self._own}
        self._read: dict[str, RecipeFile | None] = {}
        for name in self._own:
            if (own := self.file(name)) is not None:
                own.made(self.faults)
        self.faults.extend(_misnamed(folder / OWN) if folder is not None else [])

    @property
    def names(self) -> list[str]:
        return sorted(self._paths)

    def file(self, name: str) -> RecipeFile | None:
        """The recipe as written; None if there is no such recipe or its faults hide it (they are kept in `faults`)."""
        if name not in self._read and name in self._paths:
            self._read[name] = self._load(name, self._paths[name])
        return self._read.get(name)

    def _load(self, name: str, path: Path) -> RecipeFile | None:
        file = self._label(name)
        try:
            recipe = recipe_of(read_text(path, file), file, self.faults)
        except Faulty as faulty:
            self.faults.extend(faulty.faults)
            return None
        if recipe is not None and recipe.name != name:
            what = f'the file is called {path.name}, but its recipe "{recipe.name}"'
            self.faults.append(Fault(recipe.place, what, f"call the file {recipe.name}.yaml"))
            return None
        return recipe

    def _label(self, name: str) -> str:
        """What a recipe's file is called in places."""
        return f"{OWN if name in self._own else SHIPPED}/{self._paths[name].name}"

    def keep_to(self, texts: Mapping[str, str], label: Callable[[str], str]) -> tuple[tuple[str, str], ...]:
        """Takes these texts for the recipes of these names, whatever stands in their files by now.

        `label`: what a recipe's kept text is called in places. Gives the names of the recipes that were changed, each
        with the file of its new text, "" where it has none any more.
        """
        changed = []
        for name, text in texts.items():
            if name not in self._paths or self.text(name) != text:
                changed.append((name, self._label(name) if name in self._paths else ""))
                self._paths.setdefault(name, Path(label(name)))
                self._read[name] = recipe_of(text, label(name), self.faults)
        return tuple(changed)

    def text(self, name: str) -> str:
        """A recipe's file as it stands. KeyError if there is no such recipe."""
        return read_text(self._paths[name], f"{name}.yaml")

    def givers(self, state: str) -> list[str]:
        """Names of the recipes that could give a state."""
        return [name for name, file in self._all() if any(given.state == state for given in file.all_given())]

    def states(self) -> set[str]:
        """Every state that some recipe gives or needs."""
        return {state for _, file in self._all() for state in file.all_states()}

    def _all(self) -> Iterator[tuple[str, RecipeFile]]:
        """Every recipe that can be read; faults of those that came with the program are not the reader's."""
        for name in self.names:
            before = len(self.faults)
            file = self.file(name)
            if name not in self._own:
                del self.faults[before:]
            if file is not None:
                yield name, file


def _files(folder: Path) -> dict[str, Path]:
    return {path.stem: path for path in sorted(folder.glob("*.yaml"))}


def _misnamed(folder: Path) -> list[Fault]:
    return [
        Fault(Place(f"{OWN}/{path.name}"), "a recipe's file ends in .yaml", f"call it {path.stem}.yaml")
        for path in sorted(folder.glob("*.yml"))
    ]


def read_recipe_library(folder: Path | None = None) -> dict[str, Recipe]:
    """Every recipe by name. `folder`: a job's folder, whose own recipes win. Raises Faulty with all faults."""
    library = Library(folder)
    recipes: dict[str, Recipe] = {}
    for name in library.names:
        file = library.file(name)
        if file is not None:
            recipes[name] = file.made(library.faults)
    if library.faults:
        raise Faulty(library.faults)
    return recipes


def recipe_text(name: str, folder: Path | None = None) -> str:
    """The file of a recipe as it stands. `folder` as in `read_recipe_library`. KeyError if there is no such recipe."""
    return Library(folder).text(name)


def is_own(recipe: Recipe) -> bool:
    """True for a recipe that stands beside the job."""
    return recipe.place.file.startswith(f"{OWN}/")
