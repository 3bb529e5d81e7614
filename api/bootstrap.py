"""Make this machine ready, with Python's standard library alone.

``python3 -m api`` and ``python3 -m tests`` begin here on a machine that may have nothing but Python. They get
a virtual environment in the checkout, the packages that pyproject.toml names, and Debian's libraries where
this may install them; then the program starts again inside the environment. An installed copy
(``pip install .``) has its packages already and is left alone.
"""

from __future__ import annotations

import contextlib
import ctypes
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
PROJECT = ROOT / "pyproject.toml"
LEAST_PYTHON = (3, 11)

PDF_LIBRARIES = {
    "libpango-1.0-0": "libpango-1.0.so.0",
    "libpangoft2-1.0-0": "libpangoft2-1.0.so.0",
    "libharfbuzz-subset0": "libharfbuzz-subset.so.0",
}
TEST_PROGRAMS = {
    "chromium": "chromium",
    "poppler-utils": "pdftotext",
    "libnss3-tools": "certutil",
    "openssl": "openssl",
}


class NotReady(Exception):
    """The machine lacks something that cannot be installed from here; the text says what to do."""


def enter(module: str, arguments: Sequence[str], extra: str = "") -> None:
    """Return inside a complete environment, or replace this process with `module` started in one.

    `extra` names an optional set of dependencies of pyproject.toml ("tests").
    Raises NotReady where something is missing that only a person can install.
    """
    if not PROJECT.is_file():
        return
    if sys.version_info < LEAST_PYTHON:
        raise NotReady(f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}.")
    with only_one_at_a_time():
        install_debian_packages(missing_debian_packages(extra))
        make_environment(extra)
    if Path(sys.prefix).resolve() != environment().resolve():
        python = str(environment_python())
        os.execv(python, [python, "-m", module, *arguments])


def say(sentence: str) -> None:
    """Tell the person at the terminal what is being done; standard output stays free for results."""
    print(sentence, file=sys.stderr, flush=True)


@contextlib.contextmanager
def only_one_at_a_time() -> Iterator[None]:
    """Two starts at once: the second waits until the first has finished installing."""
    import fcntl  # here, because an installed copy may run where there is none

    with PROJECT.open("rb") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        yield


def environment() -> Path:
    """The virtual environment's folder: in the checkout, or in the user's cache if that is read-only."""
    if os.access(ROOT, os.W_OK):
        return ROOT / ".venv"
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return cache / "teepiece" / hashlib.sha256(bytes(ROOT)).hexdigest()[:16]


def environment_python() -> Path:
    return environment() / "bin" / "python"


def make_environment(extra: str) -> None:
    """Create the environment and install into it, unless its stamp says that all of this was done."""
    wanted = fingerprint()
    if stamped(extra) == wanted and environment_python().exists():
        return
    create_environment()
    say("Installing the packages that pyproject.toml names (once; a minute or two) ...")
    install = [str(environment_python()), "-m", "pip", "install", "--quiet", *requirements(extra)]
    if subprocess.run(install, check=False, cwd=ROOT, stdout=sys.stderr).returncode != 0:
        raise NotReady("The packages could not be installed; the lines above say why. Is there a network?")
    for done in {extra, ""}:
        stamp(done).write_text(wanted, encoding="ascii")


def stamp(extra: str) -> Path:
    """The file that says what was installed for the server, or for the server and an extra."""
    return environment() / f"teepiece-{extra or 'server'}.sha256"


def stamped(extra: str) -> str:
    with contextlib.suppress(FileNotFoundError):
        return stamp(extra).read_text(encoding="ascii")
    return ""


def fingerprint() -> str:
    """Of what decides what is installed: the project file and the place of the checkout."""
    return hashlib.sha256(bytes(ROOT) + PROJECT.read_bytes()).hexdigest()


def create_environment() -> None:
    if environment_works():
        return
    if importlib.util.find_spec("ensurepip") is None:
        install_debian_packages(["python3-venv"])
        importlib.invalidate_caches()
    if importlib.util.find_spec("ensurepip") is None:
        raise NotReady("This Python cannot make virtual environments until python3-venv is installed.")
    say(f"Making a virtual environment in {environment()} ...")
    made = subprocess.run([sys.executable, "-m", "venv", "--clear", str(environment())], check=False)
    if made.returncode != 0:
        raise NotReady(f"No virtual environment could be made in {environment()}; the lines above say why.")


def environment_works() -> bool:
    if not environment_python().exists():
        return False
    ask_pip = [str(environment_python()), "-m", "pip", "--version"]
    return subprocess.run(ask_pip, check=False, capture_output=True).returncode == 0


def requirements(extra: str) -> list[str]:
    """Arguments for pip: the checkout itself, editable; its dependencies alone if it cannot be written."""
    if os.access(ROOT, os.W_OK):
        return ["--editable", f"{ROOT}[{extra}]" if extra else str(ROOT)]
    import tomllib  # here, so that an older Python gets as far as the sentence about its version

    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]
    optional: list[str] = project["optional-dependencies"][extra] if extra else []
    return [*project["dependencies"], *optional]


def missing_debian_packages(extra: str) -> list[str]:
    missing = [package for package, library in PDF_LIBRARIES.items() if not loads(library)]
    if extra == "tests":
        missing += [package for package, program in TEST_PROGRAMS.items() if shutil.which(program) is None]
    return missing


def loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def install_debian_packages(packages: Sequence[str]) -> None:
    """Install with apt-get when this may; else say in one line what a person should install."""
    if not packages:
        return
    names = " ".join(packages)
    if not (os.geteuid() == 0 and shutil.which("apt-get")):
        say(f"Not installed: {names}. On Debian: sudo apt-get install {names}")
        return
    say(f"Installing Debian's {names} ...")
    if not (apt_get("update") and apt_get("install", "--yes", "--no-install-recommends", *packages)):
        say(f"apt-get could not install {names}; going on without.")


def apt_get(*arguments: str) -> bool:
    command = ["apt-get", "-qq", "-o", "DPkg::Lock::Timeout=120", *arguments]
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    return subprocess.run(command, check=False, env=quiet, stdout=sys.stderr).returncode == 0
