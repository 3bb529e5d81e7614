"""The small form of every long run, as part of every check."""

from pathlib import Path

import pytest

from tests.full.__main__ import HEAD, kept
from tests.full.registry import FullRun, discover

RUNS = [run for run in discover().values() if run.small_in_every_check]


@pytest.mark.parametrize("run", RUNS, ids=lambda run: run.name)
def test_the_small_form_holds(run: FullRun) -> None:
    rows = list(run.run(True))
    assert rows
    assert [row for row in rows if not row.holds] == []


def test_a_section_takes_the_place_of_its_earlier_self(tmp_path: Path) -> None:
    results = tmp_path / "results.md"
    for name, text in (("b", "## b\n\none\n"), ("a", "## a\n\ntwo\n"), ("b", "## b\n\nthree\n")):
        results.write_text(kept(results, name, text), encoding="utf-8")
    assert results.read_text(encoding="utf-8") == HEAD.rstrip() + "\n\n## a\n\ntwo\n\n## b\n\nthree\n"
