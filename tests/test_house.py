"""The house stands: imports run down, one floor writes files, and the shell opens without the heavy libraries."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
FLOORS = (
    "terms", "plan", "files", "air", "waits", "network", "solve", "audit", "writeup", "causes", "desk",
    "settling", "brought_forward", "firm_visits", "together", "planning", "sooner", "answers", "views", "cli",
    "__main__",
)  # fmt: skip
"""Ground floor first. `plan` is the finished plan's own words and knows the terms alone."""

ONLY = {
    "ortools": "solve", "pydantic": "files", "yaml": "files", "holidays": "files", "icalendar": "views",
    "textual": "tui",
}  # fmt: skip
"""Libraries that one floor alone may name."""

HEAVY = ("numpy", "pydantic", "ortools", "icalendar", "textual", "holidays", "yaml")


def modules() -> list[Path]:
    """Every module of the program."""
    return [*sorted((ROOT / "sequencer").rglob("*.py")), *sorted((ROOT / "tui").rglob("*.py"))]


def imports(path: Path) -> set[str]:
    """Every module a file imports, wherever in it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports by a relative name"
            found.add(node.module or "")
    return found


def floor(path: Path) -> str:
    """The floor a module stands on."""
    return path.relative_to(ROOT / "sequencer").parts[0].removesuffix(".py")


def test_imports_run_one_way_downwards() -> None:
    upward = []
    for path in modules():
        if path.is_relative_to(ROOT / "tui") or path == ROOT / "sequencer" / "__init__.py":
            continue
        mine = floor(path)
        for name in imports(path):
            if name.startswith("sequencer."):
                other = name.split(".")[1]
                allowed = other == mine or FLOORS.index(other) < FLOORS.index(mine)
                if not allowed or (mine == "plan" and other not in ("plan", "terms")):
                    upward.append(f"{path.relative_to(ROOT)} imports {name}")
    assert upward == []


def test_the_screen_is_never_imported_by_the_program() -> None:
    program = [path for path in modules() if not path.is_relative_to(ROOT / "tui")]
    assert [path for path in program if any(name.split(".")[0] == "tui" for name in imports(path))] == []


@pytest.mark.parametrize("library", ONLY)
def test_a_library_is_named_on_one_floor_alone(library: str) -> None:
    named = {p for p in modules() if any(name.split(".")[0] == library for name in imports(p))}
    homes = {"tui" if p.is_relative_to(ROOT / "tui") else floor(p) for p in named}
    assert homes == {ONLY[library]}


def test_the_ground_floor_knows_the_standard_library_alone() -> None:
    foreign = {
        name
        for path in (ROOT / "sequencer" / "terms").glob("*.py")
        for name in imports(path)
        if not name.startswith("sequencer.terms") and name.split(".")[0] not in sys.stdlib_module_names
    }
    assert foreign == set()


def test_only_the_desk_opens_files_for_writing() -> None:
    writers = []
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and _writes(node):
                writers.append(path.relative_to(ROOT).as_posix())
    assert {writer for writer in writers if not writer.startswith("sequencer/desk/")} == set()
    assert writers


def _writes(call: ast.Call) -> bool:
    name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
    if name in ("write_text", "write_bytes", "mkstemp", "NamedTemporaryFile", "fdopen", "unlink", "mkdir"):
        return True
    modes = [a.value for a in (*call.args, *(k.value for k in call.keywords)) if isinstance(a, ast.Constant)]
    return name == "open" and any(isinstance(m, str) and set(m) & set("wax+") and len(m) <= 3 for m in modes)


def test_help_loads_nothing_heavy() -> None:
    code = (
        "import sys; sys.argv = ['sequencer', '--help']\n"
        "from sequencer.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"print('heavy:', sorted(set({HEAVY!r}) & set(sys.modules)))"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True).stdout
    assert out.strip().endswith("heavy: []")


def test_modules_are_small() -> None:
    lengths = sorted(len(path.read_text("utf-8").splitlines()) for path in modules())
    assert lengths[len(lengths) // 2] < 150
    assert lengths[-1] <= 300


def test_the_linter_finds_nothing() -> None:
    ran = subprocess.run([sys.executable, "-m", "ruff", "check", "."], capture_output=True, text=True, cwd=ROOT)
    assert ran.returncode == 0, ran.stdout


def test_types_are_strict() -> None:
    ran = subprocess.run([sys.executable, "-m", "mypy"], capture_output=True, text=True, cwd=ROOT)
    assert ran.returncode == 0, ran.stdout
