"""What is told beside the verdict's own sentences: what is proposed, the price, the gauges, the codes."""

from typing import Any

from api.pdf.figures import Printer

NO_FAULT = "no_fault_found"


def proposal(verdict: dict[str, Any], printer: Printer) -> str:
    """What we propose to do next; empty once the repair is proved."""
    say, concluded = printer.words.say, verdict.get("conclusion") or {}
    if (verdict.get("repair_proof") or {}).get("proved") is True:
        return ""
    if concluded.get("fault") == NO_FAULT:
        return say("propose_nothing")
    test = verdict.get("next_test")
    if test and concluded.get("standing") != "proved":
        name = "propose_prove" if concluded else "propose_test"
        return say(name, minutes=printer.plain(test["minutes"]))
    if not concluded:
        return say("propose_ask")
    if verdict.get("adjustment"):
        return say("cure_customer")
    return say(f"propose_{concluded['location']}")


def unpriced(verdict: dict[str, Any], printer: Printer) -> str:
    """What is said of the price where there is no estimate."""
    concluded = verdict.get("conclusion") or {}
    if concluded.get("fault") == NO_FAULT:
        return printer.words.say("no_cost")
    return printer.words.say("no_estimate" if concluded else "cost_later")


def gauges(document: dict[str, Any], printer: Printer) -> list[str]:
    """Each gauge in a line: its span, how good it is, and when it was calibrated."""
    return [_gauge(number, one, printer) for number, one in enumerate(document.get("gauges") or [], 1)]


def _gauge(number: int, gauge: dict[str, Any], printer: Printer) -> str:
    say = printer.words.say
    facts = [printer.word(str(gauge["kind"]))] if gauge.get("kind") else []
    span = gauge.get("span_kpa") or []
    if len(span) == 2:
        facts.append(printer.limit("span_kpa", {"min": span[0], "max": span[1]}))
    if gauge.get("class_pct") is not None:
        facts.append(say("of_class", number=printer.plain(gauge["class_pct"])))
    day = printer.day(gauge.get("calibrated_on"))
    facts.append(say("calibrated", day=day) if day else say("not_calibrated"))
    name = say("gauge", number=str(number))
    return f"{name[0].upper()}{name[1:]}: {', '.join(facts)}."


def codes(document: dict[str, Any], printer: Printer) -> list[tuple[str, str]]:
    """Codes before, whether they were cleared, and what was read again: only once there is an after."""
    after, words = document.get("after_repair") or {}, printer.words
    if not after:
        return []
    before = (document.get("complaint") or {}).get("codes") or []
    rows = [(words.say("codes_before"), ", ".join(before) or words.say("codes_none"))]
    for key in ("codes_cleared", "learned_values_reset"):
        if key in after:
            rows.append((printer.label(key), words.answers[after[key]]))
    if "codes_reread" in after:
        rows.append((words.say("codes_after"), ", ".join(after["codes_reread"]) or words.say("codes_none")))
    return rows
