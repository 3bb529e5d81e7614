"""How new jobs are judged: own proved jobs weigh where the owner says so; own minutes take their place."""

from collections.abc import Callable

import calc
from api import demo
from tests.security.visitor import Visitor, Workshop

Bring = Callable[..., str]
LATE = {
    "/opened_at": "2026-11-20T08:00:00+00:00",
    "/spec/actuator_start_kpa": {"min": 60, "max": 80},
    "/spec/actuator_full_kpa": {"min": 140, "max": 160},
    "/tests/actuator/first_movement_kpa": 106,
    "/tests/actuator/full_travel_kpa": 186,
    "/tests/actuator/returns_to_stop": True,
    "/tests/actuator/linkage_free": True,
}
OPEN = {"/opened_at": "2026-11-21T08:00:00+00:00", "/complaint/codes": ["P0234"]}


def judging(visitor: Visitor) -> dict[str, dict[str, float]]:
    answer: dict[str, dict[str, float]] = visitor.get("/api/workshop").json["judging"]
    return answer


def test_priors_are_alike_until_the_owner_lets_proved_jobs_weigh(owner: Visitor, bring: Bring) -> None:
    assert judging(owner) == {"priors": {}, "minutes": {}}
    bring(LATE)
    bring(OPEN)
    assert judging(owner)["priors"] == {}
    owner.fill("/office/judging", {"proved_weigh": "y"})
    assert judging(owner)["priors"] == {"actuator_opens_late": 1.2}
    bring(LATE)
    assert judging(owner)["priors"] == {"actuator_opens_late": 1.4}
    page = owner.get("/office/judging").text
    assert "Actuator opens too late" in page
    owner.fill("/office/judging", {})
    assert judging(owner)["priors"] == {}


def test_the_demo_job_is_nobodys_and_does_not_count(workshop: Workshop, owner: Visitor) -> None:
    workshop.phone().sync(*demo.operations())
    owner.fill("/office/judging", {"proved_weigh": "y"})
    assert judging(owner)["priors"] == {}


def test_own_minutes_are_kept_and_judge_a_job_that_carries_them(owner: Visitor) -> None:
    owner.fill("/office/judging", {"minutes-smoke": "25", "minutes-actuator": "7.5"})
    minutes = judging(owner)["minutes"]
    assert minutes == {"smoke": 25, "actuator": 7.5}
    job = {"format": "job/1", "id": "x", "workshop": judging(owner)}
    left = {row["test"]: row["minutes"] for row in calc.judge(job)["remaining"]}
    assert (left["smoke"], left["actuator"], left["throttle"]) == (25, 7.5, 5)


def test_minutes_that_are_none_are_refused(owner: Visitor) -> None:
    refused = owner.fill("/office/judging", {"minutes-smoke": "0"})
    assert refused.status_code == 200
    assert "between 1 and 600" in refused.text
    assert judging(owner)["minutes"] == {}


def test_only_the_owner_changes_it(office: Visitor) -> None:
    assert office.get("/office/judging").status_code == 403
