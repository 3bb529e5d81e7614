"""Every part of the bench works in its small form; no time is looked at. The plain version agrees."""

import json

import pytest

import calc
from tests.bench import plain, road
from tests.bench.command import PARTS, README, RESULTS
from tests.bench.quote import quoted, section
from tests.bench.rows import at_most, ratio

# Where the plain version reads the same thing in a simpler way: how far the two may lie apart.
APART = {"road_tracking": 0.2, "road_air_mass": 0.02}
IN_A_BROWSER = {"engine", "pages"}  # tests/browser/test_bench_parts.py
SLOW = {"sync"}  # the long run that it repeats has its own small form


@pytest.mark.parametrize("name", [name for name in PARTS if name not in IN_A_BROWSER | SLOW])
def test_a_part_measures_what_it_says(name: str) -> None:
    rows = list(PARTS[name][1](True))
    assert rows
    assert all(row.what and row.measured and row.required for row in rows)


def test_the_plain_version_says_the_same() -> None:
    data = road.log(road.FEW_ROWS)
    job = road.job(calc.read_log(data)["channels"])
    findings = {finding["check"]: finding for finding in calc.judge(job)["findings"]}
    plainly = json.loads(plain.judge(plain.read(data), job))
    assert len(plainly) >= 8
    for check, (value, _, outcome) in plainly.items():
        assert findings[check]["outcome"] == outcome, check
        assert findings[check]["value"] == pytest.approx(value, rel=1e-4, abs=APART.get(check, 0.01)), check


def test_the_log_is_as_large_as_it_says() -> None:
    data = road.log(road.FEW_ROWS)
    run = calc.read_log(data)
    assert data.count(b"\n") == road.FEW_ROWS + 1
    assert {line.count(b",") for line in data.splitlines()} == {15}
    assert len(run["channels"]) == 15
    assert len(run["channels"]["t_s"]) == road.FEW_ROWS


def test_the_readme_says_what_was_measured() -> None:
    readme, results = README.read_text(encoding="utf-8"), RESULTS.read_text(encoding="utf-8")
    assert section(results) in readme
    assert quoted(readme, results) == readme


def test_a_new_run_takes_the_place_of_the_old_one_in_the_readme() -> None:
    readme = "# House\n\n## Start\n\nso\n\n## Licences\n\nthese\n"
    head = "2026-11-25 15:00 UTC, 2 × chip, 24 GB; load of the machine 0.5 before and 1 after; 4 s."
    one = f"\n## calc\n\nThe part. {head}\n\n"
    row = "| a job judged | {} ms (1 to 9 in 5) | at most 50 ms | yes |\n"
    first = quoted(readme, "# How fast\n" + one + row.format(40))
    assert "2026-11-25, 2 × chip, 24 GB, load 0.5 to 0.5." in first
    assert "| a job judged | 40 ms | at most 50 ms | yes |" in first
    second = quoted(first, "# How fast\n" + one + row.format(30))
    assert second == first.replace("40 ms", "30 ms")
    assert [line for line in second.splitlines() if line.startswith("#")] == [
        "# House", "## Start", "## How fast", "## Licences",
    ]  # fmt: skip


def test_a_bar_that_is_missed_is_said() -> None:
    assert at_most("a", 50, 50, "ms").holds
    assert not at_most("a", 50.4, 50, "ms").holds
    assert ratio("b", 2.0, 1.0, 2.0).holds
    assert not ratio("b", 2.1, 1.0, 2.0).holds
