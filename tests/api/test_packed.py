"""The pack: what the phone fetches in place of a hundred modules; what it does not know it refuses."""

import json
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from api import packed
from api.packed import CannotPack
from api.shelf import Shelf

APP = Path(__file__).resolve().parents[2] / "pwa"
PAGE = '<!doctype html><script type="module" src="/packed.js"></script>'
# Programs of their own: the worker, and what the browser fetches by itself.
APART = {"engine/worker.js", "sw.js"}


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Four modules, of which the first needs one that needs the others, and two sheets."""
    files = {
        "index.html": PAGE,
        "app.js": 'import { shout as say, one } from "./parts/loud.js";\nsay(one);\n',
        "parts/loud.js": (
            'import * as low from "./low.js";\nimport {\n  end,\n} from "../end.js";\n'
            'export { one } from "../end.js";\n\nexport function shout(word) {\n  low.say(word + end);\n}\n'
        ),
        "parts/low.js": "const heard = [];\nexport const say = (word) => heard.push(word);\n",
        "end.js": (
            'export const end = "!";\nexport const one = 1;\nexport class Two {}\n'
            "export async function later() {}\n"
        ),
        "apart.js": "export const apart = true;\n",
        "style/all.css": '@import "b.css";\n@import "a.css";\n',
        "style/a.css": "p { color: red; }\n",
        "style/b.css": "p { color: blue; }\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
    return tmp_path


def script(folder: Path) -> str:
    pack = packed.packed(Shelf(folder))
    assert pack is not None
    return pack.script.data.decode()


def test_each_module_stands_behind_those_it_needs(small: Path) -> None:
    text = script(small)
    begun = [text.index(f"const {name} = (() => {{") for name in ("$end_js", "$parts_loud_js", "$app_js")]
    assert begun == sorted(begun)
    assert text.index("const $parts_low_js = (") < begun[1]


def test_imports_and_exports_become_constants(small: Path) -> None:
    text = script(small)
    assert "const { shout: say, one } = $parts_loud_js;\nsay(one);\n" in text
    assert "const low = $parts_low_js;\nconst {\n  end,\n} = $end_js;\nconst { one } = $end_js;\n" in text
    assert "return { shout, one };" in text
    assert "return { end, one, Two, later };" in text


def test_what_is_not_needed_is_not_packed(small: Path) -> None:
    pack = packed.packed(Shelf(small))
    assert pack is not None
    assert pack.names == {
        "app.js", "parts/loud.js", "parts/low.js", "end.js", "style/all.css", "style/a.css", "style/b.css",
    }  # fmt: skip
    assert b"apart" not in pack.script.data


def test_the_sheets_keep_their_order(small: Path) -> None:
    sheet = packed.by_name(Shelf(small), "packed.css")
    assert sheet is not None
    assert sheet.data == b"p { color: blue; }\np { color: red; }\n"


# Index maps: ECMA-426, section 4; each section's lines are counted from its offset.
def test_the_map_leads_each_line_to_its_source(small: Path) -> None:
    lines = script(small).splitlines()
    found = packed.by_name(Shelf(small), "packed.js.map")
    assert found is not None
    sections = json.loads(found.data)["sections"]
    assert len(sections) == 4
    for section in sections:
        [name], [source] = section["map"]["sources"], section["map"]["sourcesContent"]
        assert (small / name[1:]).read_text() == source
        for number, line in enumerate(source.splitlines()):
            here = lines[section["offset"]["line"] + number]
            assert here == line or line.startswith(("import", "export", "}"))
        assert section["map"]["mappings"].count(";") == source.count("\n")


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("end.js", 'import { one } from "./app.js";\n', "app.js > parts/loud.js > end.js > app.js"),
        ("end.js", "export default 1;\n", "end.js: export default 1;"),
        ("end.js", "export let one = 1;\n", "end.js: export let one = 1;"),
        ("end.js", 'import "./app.js";\n', 'end.js: import "./app.js";'),
        ("end.js", 'const x = await import("./app.js");\n', 'end.js: import("./app.js")'),
        ("app.js", 'import { x } from "./none.js";\n', "there is no none.js"),
        ("style/all.css", '@import "none.css";\n', "there is no style/none.css"),
    ],
)
def test_what_it_does_not_know_is_refused(small: Path, name: str, text: str, says: str) -> None:
    (small / name).write_text(text)
    with pytest.raises(CannotPack) as caught:
        packed.packed(Shelf(small))
    assert str(caught.value) == says


def test_a_page_that_names_its_modules_is_left_alone(small: Path) -> None:
    (small / "index.html").write_text(PAGE.replace("packed", "app"))
    assert packed.packed(Shelf(small)) is None
    assert packed.by_name(Shelf(small), "packed.js") is None


def test_a_changed_source_is_packed_anew(small: Path) -> None:
    shelf = Shelf(small)
    before = packed.packed(shelf)
    (small / "end.js").write_text('export const end = "?!";\nexport const one = 1;\n')
    after = packed.packed(shelf)
    assert before is not None
    assert after is not None
    assert before.script.sha256 != after.script.sha256


def test_every_module_of_the_app_is_in_the_pack() -> None:
    pack = packed.packed(Shelf(APP))
    assert pack is not None
    paths = {path.relative_to(APP).as_posix() for kind in ("*.js", "style/*.css") for path in APP.rglob(kind)}
    assert pack.names == {name for name in paths if not name.startswith("vendor/")} - APART


def test_the_server_gives_the_pack_and_each_module(client: FlaskClient, pwa: Path) -> None:
    assert client.get("/packed.js").status_code == 404
    (pwa / "index.html").write_text(PAGE)
    (pwa / "style").mkdir()
    (pwa / "style/all.css").write_text("")
    assert client.get("/packed.js").mimetype == "text/javascript"
    assert client.get("/packed.css").mimetype == "text/css"
    assert "answer" in client.get("/packed.js").text
    assert "answer" in client.get("/app.js").text
    shell = json.loads(client.get("/release.js").text.split(" = ", 1)[1].rstrip(";\n"))["shell"]["files"]
    assert shell == ["/", "/packed.js", "/packed.css"]
