"""Texts that a person with bad intentions, or a broken phone, might put where words belong, kind by kind."""

TEXTS = {
    "HTML": [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "<img src='http://127.0.0.1:9/beacon.png'>",
        "<img src='file:///etc/passwd'>",
        "<link rel=stylesheet href='http://127.0.0.1:9/x.css'>",
        "<link rel=attachment href='file:///etc/passwd'>",
        "<style>@import 'http://127.0.0.1:9/x.css';</style>",
        "<style>body { display: none }</style>",
        "</style><h1>Another heading</h1>",
        "</title></head><body><h1>Another heading</h1>",
        "<a href='javascript:alert(1)'>press</a>",
        "<iframe src='http://127.0.0.1:9/'></iframe>",
        "<object data='file:///etc/hostname'></object>",
        "<embed src='file:///etc/hostname'>",
        "<base href='http://127.0.0.1:9/'>",
        "<meta http-equiv=refresh content='0;url=http://127.0.0.1:9/'>",
        "<!-- <h1> -->",
        "<![CDATA[<h1>]]>",
        "&lt;b&gt;&amp;&#0;&#x1F600;&nosuch;",
        '" onmouseover="alert(1)',
        "data:text/html,<script>alert(1)</script>",
        "<details open ontoggle=alert(1)>",
    ],
    "SVG and XML": [
        "<svg><image href='file:///etc/passwd'/></svg>",
        "<svg onload=alert(1)>",
        "<?xml version='1.0'?><!DOCTYPE r [<!ENTITY e SYSTEM 'file:///etc/passwd'>]><r>&e;</r>",
        "<math><mtext></form><form><mglyph><style></math><img src onerror=alert(1)>",
    ],
    "templates and format strings": [
        "{{ 7 * 7 }}",
        "{% for x in ().__class__.__base__.__subclasses__() %}{{ x }}{% endfor %}",
        "${7*7} #{7*7} <%= 7*7 %>",
        "%(name)s %s %n {0} {name} {0.__class__}",
    ],
    "SQL": [
        "'; DROP TABLE jobs; --",
        "' UNION SELECT token_sha256 FROM sessions --",
        "1); DELETE FROM audit; --",
        "%' ESCAPE '%' OR 1=1 --",
    ],
    "commands": [
        "$(reboot) `reboot` ; reboot | reboot && reboot",
    ],
    "CSS and our own scheme": [
        "url(teepiece:regular.ttf) url(http://127.0.0.1:9/)",
        "teepiece:report.css",
    ],
    "path tricks": [
        "../../../../etc/passwd",
        "C:\\Windows\\win.ini",
        "con.txt:aux:nul",
    ],
    "formula cells": [
        "=cmd|'/c calc'!A1",
        "@SUM(1+1)*cmd|' /C calc'!A0",
        '=HYPERLINK("http://127.0.0.1:9/?" & A1, "press")',
    ],
    "header injection": [
        "line\r\nBcc: everyone@example.com",
        "line\r\n\r\n.\r\nMAIL FROM:<a@example.com>",
    ],
    "PDF syntax": [
        "/Type /Action /S /JavaScript /JS (app.alert(1))",
        ") >> endobj 1 0 obj << /OpenAction",
    ],
    "escapes and words of machines": [
        "\\0000 \\u0000 \\x00",
        "null undefined NaN -Infinity 1e999",
    ],
    "signs that are none": [
        "\x00\x01\x02\x07\x08\x0b\x0c\x1b[31mred",
        "\ud800 half of a pair",
        "\ufffe\uffff\ufdd0 not characters",
    ],
    "writing": [
        "\u202eright to left\u202c and \u2066isolated\u2069",
        "e" + "\u0301" * 80,
        "\u200b\u200c\u200d\ufeff\u00ad",
        "ﷺ 𒐫 𓀀 \U0010fffd",
        "日本語 العربية עברית ไทย हिन्दी",
        "\u2028line\u2029paragraph",
        "🚗🔧💨",
    ],
    "lengths": [
        "W" * 5000,
        "a " * 5000,
        "\n" * 200 + "far below",
    ],
}
HOSTILE = [text for texts in TEXTS.values() for text in texts]
