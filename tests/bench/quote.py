"""The README's section on speed, made from results.md, so that it says what was measured and nothing else."""

import re

TITLE = "## How fast"
SAYS = (
    "Medians of one run of `python3 -m tests.bench`, which measures them anew and writes this table; "
    "machine, load and spread of each stand in `tests/bench/results.md`."
)
NOTHING = "No whole run has been kept yet."
WHEN = re.compile(r"\. (\d{4}-\d\d-\d\d) \d\d:\d\d UTC, (.+?); load of the machine (\S+) before")
ROW = re.compile(r"^\| (.+?) \| (.+?) \| (.+?) \| (yes|\*\*no\*\*) \|$", re.MULTILINE)
ASIDE = re.compile(r" \([^()]*\)$")


def section(results: str) -> str:
    """The whole section: when and where, then a row for each figure, its aside left out."""
    parts = [part for part in results.split("\n## ")[1:] if ROW.search(part)]
    if not parts:
        return f"{TITLE}\n\n{SAYS}\n\n{NOTHING}\n"
    told = [WHEN.search(part) for part in parts]
    days = sorted({found[1] for found in told if found})
    machines = sorted({found[2] for found in told if found})
    loads = [float(found[3]) for found in told if found]
    where = f"{' and '.join(days)}, {' / '.join(machines)}, load {min(loads):g} to {max(loads):g}."
    rows = [row for part in parts for row in ROW.findall(part)]
    short = [(what, ASIDE.sub("", measured), bar, holds) for what, measured, bar, holds in rows]
    lines = [f"| {' | '.join(row)} |" for row in short]
    table = "\n".join(["| what | measured | required | holds |", "| --- | --- | --- | --- |", *lines])
    return f"{TITLE}\n\n{SAYS}\n\n{where}\n\n{table}\n"


def quoted(readme: str, results: str) -> str:
    """The README with its section made anew; a first one is put before the last heading."""
    fresh = section(results)
    before, found, behind = readme.partition(f"{TITLE}\n")
    if found:
        _, next_title, rest = behind.partition("\n## ")
        return f"{before}{fresh}{next_title}{rest}"
    before, last_title, rest = readme.rpartition("\n## ")
    return f"{before}\n{fresh}{last_title}{rest}"
