"""Every sentence the audit can say stands in a table beside a plan that brings it out."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
import test_audit_facts
import test_audit_layers
import test_audit_people
import test_together

from sequencer import audit
from sequencer.audit import across
from sequencer.audit.audit import CHECKS

ROWS = [*test_audit_people.ROWS.values(), *test_audit_layers.ROWS.values()]
SAID = [*(said for row in ROWS for said in row.says), *test_audit_facts.SAID, *test_together.SAID]
MODULES = sorted(Path(audit.__path__[0]).glob("*.py"))


def sentences() -> dict[str, re.Pattern[str]]:
    """Every text that a module of the audit yields, as a pattern; what it fills in may be anything."""
    found = {}
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Yield) and isinstance(node.value, ast.JoinedStr | ast.Constant):
                pieces = node.value.values if isinstance(node.value, ast.JoinedStr) else [node.value]
                texts = [str(piece.value) if isinstance(piece, ast.Constant) else None for piece in pieces]
                words = "".join("…" if text is None else text for text in texts)
                found[words] = re.compile("".join(".+" if text is None else re.escape(text) for text in texts))
    return found


@pytest.mark.parametrize("words", sentences())
def test_a_sentence_of_the_audit_has_a_plan_that_brings_it_out(words: str) -> None:
    assert any(sentences()[words].fullmatch(said) for said in SAID)


def test_every_check_speaks_and_is_heard() -> None:
    checks = {Path(str(check.__file__)) for check in (*CHECKS, across)}
    assert checks <= set(MODULES)
    speaking = {path for path in MODULES if 'yield f"' in path.read_text("utf-8")}
    assert speaking == checks
    assert len(sentences()) >= 25
