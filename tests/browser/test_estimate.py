"""The estimate on the phone: the same coins as in the workshop, and a yes that a changed amount undoes."""

import random
import re
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from api.estimate import OPTIONS, options_of
from tests.browser.technician import Technician

RECKON = """async (estimates) => {
  const { amountText, optionsOf, typedAmount } = await import("/parts/money.js");
  return estimates.map((estimate) => optionsOf(estimate).map((option) => {
    const text = (coins) => amountText(coins, estimate.currency);
    const nets = option.lines.map(({ net }) => text(net));
    const taxes = option.taxes.map(({ tax }) => text(tax));
    return [option.name, nets, text(option.net), taxes, text(option.total), option.covers];
  }));
}"""
DRAWN = re.compile(r"^M\d+ \d+L.*L\d+ \d+$")
TYPED = """async (pairs) => {
  const { typedAmount } = await import("/parts/money.js");
  return pairs.map(([typed, sign]) => typedAmount(typed, sign));
}"""


def amount(rng: random.Random, most: int = 10**9) -> str:
    digits = rng.choice([0, 1, 2, 3, 6])
    whole = rng.choice(["", "-"]) + str(rng.randrange(rng.choice([1, 10, 1000, most])))
    return f"{whole}.{rng.randrange(10**digits):0{digits}d}" if digits else whole


def any_estimate(rng: random.Random) -> dict[str, Any]:
    lines = [
        {
            "option": rng.choice(OPTIONS),
            "name": rng.choice(["Rod", "Düse", ""]),
            "quantity": amount(rng),
            "price": amount(rng),
            "discount_pct": amount(rng, 100),
            "tax_pct": rng.choice(["19", "19.0", "7", "20", "0", "8.1"]),
        }
        for _ in range(rng.randrange(7))
    ]
    kept = [
        {key: value for key, value in line.items() if key == "price" or rng.random() < 0.9} for line in lines
    ]
    currency = rng.choice(["EUR", "GBP", "JPY", "KWD", ""])
    return {"currency": currency, "rounding": rng.choice(["line", "total"]), "lines": kept}


def in_the_workshop(estimate: dict[str, Any]) -> list[list[Any]]:
    return [
        [
            one.name,
            [f"{line.net:f}" for line in one.lines],
            f"{one.net:f}" if one.lines else "",
            [f"{tax.tax:f}" for tax in one.taxes],
            f"{one.total:f}",
            one.covers,
        ]
        for one in options_of(estimate)
    ]


def test_phone_and_workshop_agree_to_the_coin(new_page: Callable[..., Page], standing_server: Any) -> None:
    rng = random.Random(9)
    estimates = [any_estimate(rng) for _ in range(2000)]
    page = new_page(standing_server, "/")
    phone = page.evaluate(RECKON, estimates)
    differing = [
        (given, one, other)
        for given, one, other in zip(estimates, phone, map(in_the_workshop, estimates), strict=True)
        if [option for option in one if option[1]] != [option for option in other if option[1]]
    ]
    assert differing == []
    typed = page.evaluate(
        TYPED, [["1,50", ","], ["1.234,5", ","], ["1,234.5", "."], ["1e3", "."], ["x", "."]]
    )
    assert typed == ["1.50", "1234.5", "1234.5", None, None]


def sign(page: Page) -> None:
    box = page.locator("svg.pane").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 40, box["y"] + 60)
    page.mouse.down()
    for step in range(12):
        page.mouse.move(box["x"] + 40 + step * 18, box["y"] + 60 + (step % 3) * 15)
    page.mouse.up()


def test_a_finger_says_yes_offline_and_a_changed_amount_asks_again(
    new_page: Callable[..., Page], server: Any
) -> None:
    page = new_page(server, "/")
    technician = Technician(page)
    job = page.evaluate(
        """async () => {
          const { openWorkbook } = await import("/store/workbook.js");
          const places = { "/customer/name": "A. Sample", "/estimate/currency": "GBP" };
          return (await openWorkbook()).newJob({ places });
        }"""
    )
    page.reload()
    page.context.set_offline(True)
    page.evaluate("(id) => { location.hash = `#/job/${id}/estimate`; }", job)
    technician.tap("A line of one's own")
    page.locator("details.estimate-line summary").click()
    technician.write("What for", "Set the rod")
    technician.write("Price of one, without tax", "80")
    technician.write("Tax, %", "20")
    expect(page.locator(".sum .total dd")).to_have_text("96.00\N{NO-BREAK SPACE}GBP")
    technician.tap("Show it to the customer")
    technician.tap("Sign for: In all")
    sign(page)
    technician.tap("Yes to 96.00\N{NO-BREAK SPACE}GBP")
    expect(page.locator(".signed")).to_contain_text("A. Sample said yes to 96.00")
    expect(page.locator(".signed svg path")).to_have_attribute("d", DRAWN)
    technician.tap("Change the estimate")
    page.locator("details.estimate-line summary").click()
    technician.write("Price of one, without tax", "81")
    technician.tap("Show it to the customer")
    technician.sees("it needs a new yes")
    expect(page.locator(".signed")).to_have_count(0)
