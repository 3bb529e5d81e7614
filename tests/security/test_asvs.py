"""The table `asvs.md` names tests that exist, and the items that a workshop's server must answer."""

import ast
import re
from pathlib import Path

from tests.security.visitor import HOME, Workshop

TESTS = Path(__file__).resolve().parents[1]
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in Path(__file__).with_name("asvs.md").read_text().splitlines()
    if re.match(r"\| \d", line)
]
# OWASP ASVS 5.0.0: the items that bite a server with uploads, forms, sessions and paired devices.
ANSWERED = """
1.2.10 1.3.6 1.3.11 2.4.1 3.2.1 3.3.1 3.3.2 3.3.3 3.3.4 3.4.1 3.4.3 3.4.4 3.4.6 3.5.1 3.5.2 3.5.3 5.2.1 5.2.2
5.2.6 5.3.2 5.4.2 6.1.1 6.3.1 6.5.4 6.5.5 6.6.3 7.2.3 7.3.1 7.3.2 7.4.1 7.4.2 7.4.5 7.5.2 14.2.8 14.3.1 14.3.2
14.3.3 15.1.3 15.2.2 15.3.2 16.2.2
"""


def existing_tests() -> set[str]:
    trees = (ast.parse(path.read_text()) for path in TESTS.rglob("test_*.py"))
    return {node.name for tree in trees for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}


def test_every_row_is_held_by_existing_tests() -> None:
    named = {row[0]: re.findall(r"`(test_\w+)`", row[3]) for row in ROWS}
    unheld = {item for item, tests in named.items() if not tests}
    assert {re.findall(r"[\d.]+", item)[0] for item in unheld} == {"14.3.1", "14.3.3"}
    assert {name for tests in named.values() for name in tests} - existing_tests() == set()


def test_every_item_that_bites_is_answered() -> None:
    items = {number for row in ROWS for number in re.findall(r"\d+\.\d+\.\d+", row[0])}
    assert set(ANSWERED.split()) - items == set()


def test_strict_transport_is_asked_for_on_the_wi_fi(workshop: Workshop) -> None:
    answer = workshop.visitor().get("/health")
    seconds = int(answer.headers["Strict-Transport-Security"].removeprefix("max-age="))
    assert seconds >= 365 * 24 * 3600
    assert HOME.origin.startswith("https://")
