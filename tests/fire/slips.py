"""S20: ten slips in the sync, made on purpose in a copy of the project; a named test must catch each."""

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.fire.scenario import Outcome, scenario
from tests.fire.workshop import ROOT

# Not the project file: where there is none, what is started needs no environment of its own.
COPIED = ("api", "calc", "pwa", "tests", "fixtures", "DEVELOPERS.md", "README.md")
PYTEST = ["-m", "pytest", "-q", "-x", "-n", "0", "-p", "no:cacheprovider", "-c", str(ROOT / "pyproject.toml")]
LONGEST_SECONDS = 600


@dataclass(frozen=True)
class Slip:
    """One line that somebody might get wrong, and the check that must notice."""

    what: str
    file: str
    right: str
    wrong: str
    caught_by: str


SYNC_TESTS = "tests/browser/test_store_sync.py::"
COPY_TESTS = "tests/browser/test_store_copies.py::"
SLIPS = (
    Slip(
        "a photo is not synced to the disk before it is called kept",
        "api/store/blobs.py",
        "                file.flush()\n                os.fsync(file.fileno())",
        "                file.flush()",
        "S4",
    ),
    Slip(
        "a batch is not one transaction",
        "api/store/database.py",
        'connection.execute("BEGIN IMMEDIATE")\n    try:\n        yield\n    except BaseException:\n'
        '        connection.execute("ROLLBACK")\n        raise\n    connection.execute("COMMIT")',
        "yield",
        "S3",
    ),
    Slip(
        "the same operation sent again is not known again",
        "api/exchange.py",
        "        if self.earlier.get(one) == made:",
        "        if False:",
        "S6",
    ),
    Slip(
        "a refused operation stops the batch",
        "api/exchange.py",
        "        except RefusedError as refused:\n            return Answer(one",
        "        except KeyError as refused:\n            return Answer(one",
        "S19",
    ),
    Slip(
        "a restored backup is not noticed",
        "api/exchange.py",
        "restart = phone.number > 0 and operations.hash_at(connection, phone.number) != phone.hash",
        "restart = False",
        "S18",
    ),
    Slip(
        "erased text stays in the write-ahead log",
        "api/erasure.py",
        'connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")',
        'connection.execute("PRAGMA wal_checkpoint(PASSIVE)")',
        "tests/api/test_erasure.py::test_nothing_of_it_is_left_in_any_file",
    ),
    Slip(
        "an answer alone empties the phone's outbox",
        "pwa/store/list.js",
        'if (answer === "refused") rows',
        'if (answer !== "refused") rows.set(id, { ...batch[at], number: 1 });\n'
        '    if (answer === "refused") rows',
        f"{SYNC_TESTS}test_an_answer_alone_does_not_empty_the_outbox",
    ),
    Slip(
        "the place in the list is kept before what was listed",
        "pwa/store/list.js",
        "  return book.keep(() => {\n    const rows = new Map();\n    if (reply.restart)",
        "  await book.keep(() => change({ values: { standing: after } }));\n"
        "  return book.keep(() => {\n    const rows = new Map();\n    if (reply.restart)",
        f"{COPY_TESTS}test_a_reply_that_cannot_be_kept_moves_this_phone_nowhere",
    ),
    Slip(
        "after starting again the phone sends nothing",
        "pwa/store/list.js",
        "rows.set(row.id, { ...row, was: row.number, number: null })",
        "rows.set(row.id, row)",
        f"{SYNC_TESTS}test_a_server_that_lost_everything_gets_it_back",
    ),
    Slip(
        "parts of a photo are joined and not summed",
        "api/store/blobs.py",
        "if _sum(path) != name:",
        "if not path:",
        "tests/api/test_blobs.py::test_parts_that_do_not_make_the_blob_are_refused_and_begin_anew",
    ),
    Slip(
        "the phone's writes are not strict",
        "pwa/store/database.js",
        '{ durability: "strict" }',
        '{ durability: "relaxed" }',
        f"{COPY_TESTS}test_every_write_is_strict",
    ),
    Slip(
        "after a server's restart its photos are believed",
        "api/routes/sync.py",
        "secrets.token_hex(8)",
        '"the same"',
        "S18",
    ),
)
IN_EVERY_CHECK = (2, 5)


@scenario("S20")
def slips(small: bool) -> Iterator[Outcome]:
    """Each slip is made in a copy of its own; the check named beside it passes without it and fails there."""
    chosen = [SLIPS[at] for at in IN_EVERY_CHECK] if small else list(SLIPS)
    for slip in chosen:
        caught = holds(slip.caught_by) and not holds(slip.caught_by, slip)
        yield Outcome("S20", f"{slip.what}: caught by {slip.caught_by.rpartition('::')[2]}", 1, held=caught)


def holds(check: str, slip: Slip | None = None) -> bool:
    """Whether a check passes in a copy of the project, with a slip or without."""
    with tempfile.TemporaryDirectory(prefix="slip-") as space:
        copy = Path(space)
        for name in COPIED:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, copy / name)
        if slip:
            make(slip, copy / slip.file)
        done = subprocess.run(
            [sys.executable, *command_of(check, copy)],
            cwd=copy,
            env=os.environ | {"PYTHONPATH": space},
            capture_output=True,
            text=True,
            timeout=LONGEST_SECONDS,
            check=False,
        )
    if done.returncode not in (0, 1):
        raise RuntimeError(f"{check} did not run: {done.stdout[-500:]}{done.stderr[-500:]}")
    return done.returncode == 0


def make(slip: Slip, file: Path) -> None:
    """Write the wrong line in place of the right one."""
    text = file.read_text("utf-8")
    assert text.count(slip.right) >= 1, f"{slip.file} no longer says: {slip.right}"
    file.write_text(text.replace(slip.right, slip.wrong, 1), "utf-8")


def command_of(check: str, copy: Path) -> list[str]:
    """A test by its name, or a scenario in its small form; all of it from the copy."""
    if check.startswith("tests/"):
        return [*PYTEST, f"--rootdir={copy}", "-o", f"pythonpath={copy}", check]
    return ["-m", "tests.fire", check, "--small"]
