"""S1, S6, S7, S19: random runs, ids used twice, every order of arrival, poison in the queue."""

import atexit
import itertools
import json
import random
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from flask import Flask
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule, run_state_machine_as_test

from api.app import create_app
from api.context import KEY
from api.fold.document import fold
from api.fold.holding import hold
from api.store.blobs import Blobs
from tests.fire import checks
from tests.fire.lines import Direct, UnreachableError
from tests.fire.phone import Phone
from tests.fire.scenario import Outcome, folder, scenario

PLACES = ("/tests/actuator/first_movement_kpa", "/tests/actuator/full_travel_kpa", "/complaint/text")
ITEMS = tuple(f"/tests/road/r{run}" for run in (1, 2))
JOB = "019ac0de-0000-7000-8000-00000000f17e"
STEPS = {"taken": 0, "faults": 0}


@cache
def empty_workshop() -> Path:
    """A new workshop's data folder, made once."""
    data = Path(tempfile.mkdtemp(prefix="fire-")) / "data"
    atexit.register(shutil.rmtree, data.parent, ignore_errors=True)
    create_app(data)
    return data


@cache
def one_app() -> Flask:
    return create_app(empty_workshop())


def one_app_over(data: Path) -> Flask:
    """The application, as if it had just been started over this folder."""
    app = one_app()
    context = app.extensions[KEY]
    blobs = Blobs(data / "blobs")
    blobs.prepare()
    app.extensions[KEY] = replace(context, database=data / "workshop.sqlite3", blobs=blobs)
    app.extensions.pop("teepiece_run", None)
    return app


class LossyLine:
    """A line into the application that loses questions or answers as it is told."""

    def __init__(self, line: Direct) -> None:
        self.line = line
        self.lose: list[str] = []

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, Any, bytes]:
        fate = self.lose.pop(0) if self.lose else "through"
        if fate != "through":
            STEPS["faults"] += 1
        if fate == "question lost":
            raise UnreachableError(fate)
        answer = self.line.ask(method, path, body, **headers)
        if fate == "answer lost":
            raise UnreachableError(fate)
        if fate == "asked twice":
            return self.line.ask(method, path, body, **headers)
        return answer


FATES = st.lists(
    st.sampled_from(["through", "question lost", "answer lost", "asked twice"]), min_size=0, max_size=3
)
WHO = st.integers(0, 1)


class Sync(RuleBasedStateMachine):
    """Two phones and a workshop, which may be put back from an older copy; phones end at any moment."""

    @initialize(seed=st.integers(0, 2**32))
    def begin(self, seed: int) -> None:
        self.folder = folder(in_memory=True)
        self.space = self.folder.__enter__()
        self.data = self.space / "data"
        shutil.copytree(empty_workshop(), self.data)
        self.dice = random.Random(seed)
        self.open_server()
        self.phones = [Phone(name, LossyLine(Direct(self.client)), self.dice) for name in "AB"]
        self.backup: Path | None = None
        self.erased: list[str] = []

    def open_server(self) -> None:
        self.client = one_app_over(self.data).test_client()

    def teardown(self) -> None:
        if not hasattr(self, "phones"):
            return
        try:
            self.meet()
        finally:
            self.folder.__exit__(None, None, None)

    def meet(self) -> None:
        """Everybody syncs over a good line until nothing is open; then all agree and nothing is missing."""
        for _ in range(3):
            for phone in self.phones:
                phone.line.lose = []
                phone.sync()
        checks.all_is_there(self.data, self.phones)
        listed = [json.loads(text) for _, _, _, text in checks.list_of(self.data) if text]
        server = fold(JOB, listed)
        for phone in self.phones:
            assert phone.folded(JOB) == server, "a phone shows something else than the workshop"

    @rule(who=WHO, place=st.sampled_from(PLACES), value=st.integers(0, 5))
    def reading(self, who: int, place: str, value: int) -> None:
        self.took()
        self.phones[who].change(
            JOB, "set", place, None if value == 0 else str(value) if "text" in place else value
        )

    @rule(who=WHO, item=st.sampled_from(ITEMS), gear=st.integers(1, 6))
    def add(self, who: int, item: str, gear: int) -> None:
        self.took()
        self.phones[who].change(JOB, "add", item, {"rank": f"h{gear}abcd", "gear": gear})

    @rule(who=WHO, item=st.sampled_from(ITEMS), gear=st.integers(1, 6))
    def correct(self, who: int, item: str, gear: int) -> None:
        self.took()
        self.phones[who].change(JOB, "set", f"{item}/gear", gear)

    @rule(who=WHO, item=st.sampled_from(ITEMS), reading=st.integers(1, 2), value=st.integers(90, 99))
    def nested(self, who: int, item: str, reading: int, value: int) -> None:
        self.took()
        path = f"{item}/readings/x{reading}"
        self.phones[who].change(JOB, "add", path, {"rank": f"h{reading}abcd", "p_kpa": value})

    @rule(who=WHO, item=st.sampled_from(ITEMS))
    def remove(self, who: int, item: str) -> None:
        self.took()
        self.phones[who].change(JOB, "remove", item)

    @rule(who=WHO)
    def photo(self, who: int) -> None:
        self.took()
        self.phones[who].photograph(JOB, self.dice.randbytes(200))

    @rule(who=WHO, path=st.sampled_from(["/nowhere", "/gauges", "/tests/actuator"]))
    def poison(self, who: int, path: str) -> None:
        self.took()
        self.phones[who].change(JOB, "set", path, 1)

    @rule(who=WHO, fates=FATES)
    def sync(self, who: int, fates: list[str]) -> None:
        self.took()
        phone = self.phones[who]
        phone.line.lose = list(fates)
        with suppress(UnreachableError):
            phone.sync()

    @rule(who=WHO)
    def phone_ends(self, who: int) -> None:
        self.took()
        STEPS["faults"] += 1
        self.phones[who].restart()

    @rule()
    def back_up(self) -> None:
        self.took()
        shutil.rmtree(self.space / "backup", ignore_errors=True)
        self.backup = Path(shutil.copytree(self.data, self.space / "backup"))

    @rule()
    def put_back(self) -> None:
        """The owner puts an older copy back: what was acknowledged since is on the phones that saw it."""
        self.took()
        if self.backup is None:
            return
        STEPS["faults"] += 1
        seen = set().union(*(set(phone.disk.rows) for phone in self.phones))
        shutil.rmtree(self.data)
        shutil.copytree(self.backup, self.data)
        self.open_server()
        for phone in self.phones:
            phone.line.line = Direct(self.client)
            phone.acknowledged &= seen | {one for _, one, _, _ in checks.list_of(self.data)}
        self.put_back_once = True

    def took(self) -> None:
        STEPS["taken"] += 1


@scenario("S1")
def random_runs(small: bool) -> Iterator[Outcome]:
    """Two phones and a workshop go through readings, removals, photos, lost replies and restores."""
    runs, steps = (25, 30) if small else (2400, 50)
    STEPS.update(taken=0, faults=0)
    run_state_machine_as_test(
        Sync,
        settings=settings(
            max_examples=runs,
            stateful_step_count=steps,
            deadline=None,
            derandomize=small,
            database=None,
            phases=[Phase.generate] if not small else [Phase.generate, Phase.shrink],
            suppress_health_check=list(HealthCheck),
        ),
    )
    note = f"{STEPS['taken']:,} steps in {runs:,} runs"
    yield Outcome("S1", "random runs of two phones and a workshop", STEPS["faults"], held=True, note=note)


@scenario("S6")
def an_id_used_twice(small: bool) -> Iterator[Outcome]:
    """The same id with another body is refused and the first kept; with the same body it is a duplicate."""
    dice = random.Random(6)
    count = 20 if small else 100
    with folder() as space:
        line = Direct(create_app(space / "data").test_client())
        phone = Phone("A", line, dice)
        for number in range(count):
            one = phone.change(JOB, "set", PLACES[0], number)
            first = phone.disk.rows[one].text
            phone.sync()
            other = first.replace(f'"value": {number}', f'"value": {number + 1000}')
            for text, expected in ((other, "refused"), (first, "duplicate")):
                body = {"number": 0, "hash": "", "operations": [text]}
                _, _, data = line.ask("POST", "/api/sync", json.dumps(body).encode())
                assert json.loads(data)["answers"][0]["answer"] == expected
        checks.all_is_there(space / "data", [phone])
    yield Outcome("S6", "an id used for two operations", count, held=True)


def a_log(dice: random.Random) -> list[dict[str, Any]]:
    """Up to six operations of two phones that saw different amounts of each other."""
    made: list[dict[str, Any]] = []
    for number in range(dice.randint(3, 6)):
        seen = [one["id"] for one in made if dice.random() < 0.5]
        do = dice.choice(["set", "set", "add", "remove"]) if number else "add"
        path = "/tests/road/r1" if do != "set" else dice.choice(["/tests/road/r1/gear", PLACES[0]])
        one = {"id": f"{dice.choice('AB')}{number}", "job": JOB, "do": do, "path": path, "replaced": seen}
        if do == "set":
            one["value"] = dice.randint(1, 3)
        if do == "add":
            one["value"] = {"rank": "h0abcd", "gear": dice.randint(1, 3)}
        made.append(one)
    return made


def what_places_hold(operations: list[dict[str, Any]]) -> dict[str, set[str]]:
    return {path: {held.id for held in all_} for path, all_ in hold(operations).places.items()}


@scenario("S7")
def every_order(small: bool) -> Iterator[Outcome]:
    """All orders of arrival of logs of up to six operations: each place holds the same."""
    dice = random.Random(7)
    orders = 0
    for _ in range(4 if small else 200):
        log = a_log(dice)
        expected, hidden = what_places_hold(log), fold(JOB, log).hidden
        for order in itertools.permutations(log):
            arriving = list(order)
            assert what_places_hold(arriving) == expected
            assert fold(JOB, arriving).hidden == hidden
            orders += 1
    yield Outcome("S7", "every order of arrival (workshop's fold)", orders, held=True)


@scenario("S19")
def poison_in_the_queue(small: bool) -> Iterator[Outcome]:
    """A refused operation stands anywhere in a queue: the others go through, it is kept apart."""
    dice = random.Random(19)
    count = 10 if small else 60
    poisons = ['{"id": ', "[]", '{"id": "x"}']
    with folder() as space:
        for number in range(count):
            line = Direct(create_app(space / f"{number % 5}").test_client())
            phone = Phone("A", line, dice)
            for _ in range(dice.randint(1, 6)):
                phone.change(JOB, "set", PLACES[0], dice.randint(0, 99))
            bad = phone.change(
                JOB, "set", dice.choice(["/nowhere", "/gauges", PLACES[0]]), {"not": "a number"}
            )
            for _ in range(dice.randint(1, 6)):
                phone.change(JOB, "set", PLACES[2], str(dice.randint(0, 99)))
            phone.sync()
            assert phone.disk.rows[bad].refused
            assert all(row.number for one, row in phone.disk.rows.items() if one != bad)
            assert JOB not in phone.disk.safe, "a job with something refused is not safe"
            _breaks_nothing(line, poisons[number % 3], phone)
    yield Outcome("S19", "a refused operation in the middle of a queue", count, held=True)


def _breaks_nothing(line: Direct, poison: str, phone: Phone) -> None:
    good = json.dumps({**json.loads(next(iter(phone.disk.rows.values())).text), "id": phone.new_id()})
    body = {"number": 0, "hash": "", "operations": [poison, good]}
    status, _, data = line.ask("POST", "/api/sync", json.dumps(body).encode())
    assert status == 200
    assert [one["answer"] for one in json.loads(data)["answers"]] == ["refused", "applied"]
