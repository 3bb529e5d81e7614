"""How often a technician touches the screen: limits and gauge come from an earlier car of the same make."""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.technician import Technician, two_pulls

SHORTEST, FULL = 60, 180


def from_an_earlier_car(hand: Technician) -> None:
    """A new job of the demo car's make and model, its limits and gauge taken over."""
    hand.tap("New job")
    hand.write("Registration", "EX 99")
    hand.write("Make", "Brindle")
    hand.write("Model", "Saloon")
    hand.choose("Noticed", "boost cuts out")
    hand.go_on()
    hand.tap("Limits: none typed yet")
    hand.tap_first("Copy from")
    hand.go_on()
    hand.tap("Gauges: none named yet")
    hand.tap_first("Use ")
    hand.go_on()


def actuator(hand: Technician) -> None:
    hand.open("Actuator by hand pump")
    hand.go_on()
    hand.read("First movement", ".96")
    hand.read("Full travel", "1.71")
    hand.read("Hold, at the start", "1.5")
    hand.read("Hold, at the end", "1.49")
    hand.leave_pad()
    hand.choose("Linkage free", "yes")
    hand.choose("Returns to its stop", "yes")


def proved(hand: Technician) -> None:
    hand.is_at("What the readings say")
    expect(hand.page.locator("main")).to_contain_text("Actuator opens too late", timeout=60_000)
    hand.sees("proved")


def test_the_shortest_decisive_path(new_page: Callable[..., Page], demo_server: Any) -> None:
    hand = Technician(new_page(demo_server, "/"))
    from_an_earlier_car(hand)
    actuator(hand)
    hand.tap("Air line")
    conclusion = hand.page.locator(".conclusion a")
    conclusion.wait_for(timeout=120_000)
    hand.touch(conclusion)
    proved(hand)
    print(f"shortest decisive path: {hand.taps} touches")
    assert hand.taps <= SHORTEST


def sensors_at_rest(hand: Technician) -> None:
    hand.open("Sensors at rest")
    hand.go_on()
    for label, figure in [
        ("Charge pressure", "1"),
        ("Barometric", "1"),
        ("Intake air", "13"),
        ("Coolant", "14"),
        ("Pedal released", "0"),
        ("Pedal floored", "100"),
        ("Air mass", ".2"),
    ]:
        hand.read(label, figure)
    hand.leave_pad()
    hand.tap("Air line")


def test_the_full_path(new_page: Callable[..., Page], demo_server: Any) -> None:
    hand = Technician(new_page(demo_server, "/"))
    from_an_earlier_car(hand)
    sensors_at_rest(hand)
    hand.open("Look first")
    for step in hand.page.locator(".look-step").all():
        hand.touch(step.get_by_role("button", name="in order", exact=True))
    hand.go_on()
    hand.open("Turbo from the inlet side")
    hand.choose("Wheel damaged", "no")
    hand.choose("Spins freely", "yes")
    hand.tap("Air line")
    hand.open("Smoke")
    hand.choose("Smoke comes out", "no")
    hand.tap("Air line")
    actuator(hand)
    hand.tap("Air line")
    hand.open("Solenoid, electrical")
    hand.go_on()
    hand.read("Coil resistance", "29")
    hand.read("Coil temperature", "20")
    hand.leave_pad()
    hand.tap("Air line")
    two_pulls(hand)
    proved(hand)
    print(f"full path: {hand.taps} touches")
    assert hand.taps <= FULL
