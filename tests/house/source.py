"""The project's own files, and what its Python and JavaScript files import."""

import ast
import posixpath
import re
import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENDORED = "pwa/vendor/"

JS_IMPORT = re.compile(r"""(?:^|[\s;}])(?:import|export)\b[^'"();]*?\bfrom\s*["']([^"']+)["']""")
JS_BARE_IMPORT = re.compile(r"""\bimport\s*\(?\s*["']([^"']+)["']""")


@cache
def files() -> list[str]:
    """Every file that belongs to the project: committed, or about to be; vendored ones left out."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout.split("\0")
    return sorted(name for name in set(listed) if not name.startswith(VENDORED) and (ROOT / name).is_file())


def named(*endings: str, under: str = "") -> list[str]:
    return [name for name in files() if name.startswith(under) and name.endswith(endings)]


@cache
def text(name: str) -> str:
    """What stands in a file; bytes that are no UTF-8, in documents broken on purpose, become marks."""
    return (ROOT / name).read_text(encoding="utf-8", errors="replace")


@cache
def tree(name: str) -> ast.Module:
    return ast.parse(text(name), filename=name)


def python_imports(name: str) -> list[str]:
    """Dotted names of the modules that a Python file imports; ``from a import b`` gives ``a.b``."""
    found: list[str] = []
    for node in ast.walk(tree(name)):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name}:{node.lineno}: relative import"
            found += [f"{node.module}.{alias.name}" for alias in node.names]
    return found


def script_imports(name: str) -> list[str]:
    """Paths of the modules that a JavaScript file imports, as seen from the top of the checkout."""
    asked = JS_IMPORT.findall(text(name)) + JS_BARE_IMPORT.findall(text(name))
    return [resolved(name, path) for path in asked]


def resolved(importer: str, path: str) -> str:
    if path.startswith("/"):
        return "pwa" + path
    return posixpath.normpath(posixpath.join(posixpath.dirname(importer), path))
