"""The fold against the shared vectors, and the promise that holds beyond them: order changes nothing held."""

import random
from typing import Any

import pytest

from api.fold.document import fold
from api.fold.holding import hold, is_erased
from api.fold.receipt import receipt_lines, receipt_sum
from api.fold.text import BrokenTextError, parse, same
from tests.api.vectors import VECTORS, bytes_as_made, named


def sha256(text: str) -> str:
    import hashlib

    return hashlib.sha256(text.encode()).hexdigest()


def test_the_file_holds_all_vectors() -> None:
    assert len(VECTORS) == 85
    assert len({vector["name"] for vector in VECTORS}) == 85


@pytest.mark.parametrize("vector", **named(VECTORS))
def test_the_fold_keeps_the_promise(vector: dict[str, Any]) -> None:
    operations = [*vector["operations"], *vector.get("unlisted", [])]
    folded = fold(vector["document"]["id"], operations, vector.get("erasures", []))
    assert same(folded.document, vector["document"]), folded.document
    assert folded.conflicts == vector["conflicts"]
    assert folded.hidden == vector.get("hidden", [])
    assert folded.waiting == vector.get("waiting", [])


@pytest.mark.parametrize("vector", **named([vector for vector in VECTORS if "receipt" in vector]))
def test_the_receipt_is_the_same(vector: dict[str, Any]) -> None:
    receipt = vector["receipt"]
    operations = [
        (number, operation["id"], sha256(bytes_as_made(operation)))
        for number, operation in zip(receipt["numbers"], vector["operations"], strict=True)
        if not is_erased(operation, vector.get("erasures", []))
    ]
    lines = receipt_lines(operations, (name for name, is_there in receipt["blobs"].items() if is_there))
    assert lines == receipt["lines"]
    assert receipt_sum(lines) == receipt["sha256"]


def held_ids(operations: list[dict[str, Any]]) -> dict[str, set[str]]:
    return {path: {one.id for one in held} for path, held in hold(operations).places.items()}


@pytest.mark.parametrize("vector", **named([vector for vector in VECTORS if len(vector["operations"]) > 1]))
def test_in_another_order_every_place_holds_the_same_operations(vector: dict[str, Any]) -> None:
    dice = random.Random(vector["name"])
    job = vector["document"]["id"]
    operations = [operation for operation in vector["operations"] if operation["job"] == job]
    expected, hidden = held_ids(operations), fold(job, operations).hidden
    for _ in range(20):
        shuffled = dice.sample(operations, len(operations))
        assert held_ids(shuffled) == expected
        assert fold(job, shuffled).hidden == hidden


# RFC 8259: numbers are not bound to a notation, members have no order; names SHOULD be unique (we demand it).
@pytest.mark.parametrize(
    ("left", "right", "equal"),
    [
        ("96", "96.0", True),
        ("100", "1e2", True),
        ("0", "-0.0", True),
        ("true", "1", False),
        ("false", "0", False),
        ("null", "false", False),
        ('""', "null", False),
        ("[1, 2]", "[2, 1]", False),
        ("[]", "{}", False),
        ('{"a": 1, "b": null}', '{"b": null, "a": 1.0}', True),
        ('{"a": 1}', '{"a": 1, "b": null}', False),
        ('"é"', '"\\u00e9"', True),
        ("9007199254740993", "9007199254740992", True),  # one double, as the phone reads them
        ("[true]", "[1]", False),
    ],
)
def test_values_are_compared_as_json(left: str, right: str, equal: bool) -> None:
    assert same(parse(left), parse(right)) is equal
    assert same(parse(right), parse(left)) is equal


@pytest.mark.parametrize(
    "text",
    [
        '{"a": 1, "a": 1}',
        '{"value": NaN}',
        "Infinity",
        "-Infinity",
        "1e999",
        "9" * 400,
        "[" * 65 + "]" * 65,
        "[" * 30_000,
        '"\\ud800"',
        '{"\\udfff": 1}',
        "",
        "{",
        "1 2",
        "01",
        "{'a': 1}",
    ],
)
def test_a_text_that_is_not_strict_json_is_refused(text: str) -> None:
    with pytest.raises(BrokenTextError):
        parse(text)
