"""The charts and fonts of the pages: fetched by npm, of which only named files and their licences are kept.

Used by the build of a wheel and by ``serve``; never by a command that computes. So this module knows the standard
library only, and nothing of Django. The folder it fills is in no repository; a stamp in it tells from which lock it was
built.
"""

from __future__ import annotations

import gzip
import hashlib
import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable
from pathlib import Path

HERE = Path(__file__).resolve().parent
VENDOR = HERE / "page" / "static" / "vendor"
CHECKOUT = HERE.parents[2]
STAMP = "BUILT"
TIMEOUT_S = 180

MONO = "@fontsource/atkinson-hyperlegible-mono"
# what is copied: the file in its package, and its name with us
FILES = {
    "echarts/dist/echarts.min.js": "echarts/echarts.min.js",
    "echarts/LICENSE": "echarts/LICENSE",
    "echarts/NOTICE": "echarts/NOTICE",
    "echarts/licenses/LICENSE-d3": "echarts/LICENSE-d3",
    "zrender/LICENSE": "echarts/LICENSE-zrender",
    "@fontsource/source-serif-4/files/source-serif-4-latin-500-normal.woff2": "fonts/serif-500.woff2",
    "@fontsource/source-serif-4/LICENSE": "fonts/LICENSE-source-serif-4",
    "@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff2": "fonts/sans-400.woff2",
    "@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff2": "fonts/sans-600.woff2",
    "@fontsource/source-sans-3/LICENSE": "fonts/LICENSE-source-sans-3",
    f"{MONO}/files/atkinson-hyperlegible-mono-latin-400-normal.woff2": "fonts/mono-400.woff2",
    f"{MONO}/files/atkinson-hyperlegible-mono-latin-700-normal.woff2": "fonts/mono-700.woff2",
    f"{MONO}/LICENSE": "fonts/LICENSE-atkinson-hyperlegible-mono",
}
COMPRESSED = (".js",)  # fonts are compressed already


class AssetsError(Exception):
    """The charts and fonts cannot be built here; the text says why."""


def built(vendor: Path = VENDOR) -> bool:
    """Return whether there are charts and fonts to serve, of whatever lock."""
    return (vendor / STAMP).is_file()


def wanted(vendor: Path = VENDOR, checkout: Path = CHECKOUT) -> bool:
    """Return whether a build is due: there is a lock, and what stands in the folder was built from another one."""
    if not _is_ours(checkout):
        return False  # an installed wheel: what it was shipped with is all there is
    stamp = vendor / STAMP
    return not stamp.is_file() or stamp.read_text("utf-8").strip() != _fingerprint(checkout)


def build(vendor: Path = VENDOR, checkout: Path = CHECKOUT, tell: Callable[[str], None] = lambda text: None) -> None:
    """Fetch the packages of the lock into a folder of its own and put the named files where pages find them.

    The new folder takes the place of the old one when it is whole; AssetsError leaves the old one as it was.
    """
    npm = shutil.which("npm")
    if npm is None:
        raise AssetsError("npm is not on the path")
    tell("Fetching the charts and fonts of the pages with npm, once for this version.")
    with tempfile.TemporaryDirectory(prefix="pellicle-npm-") as name:
        fetched = Path(name)
        for file in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copy(checkout / file, fetched)
        _run([npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=1"], fetched)
        try:
            vendor.parent.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryDirectory(prefix=".vendor-", dir=vendor.parent) as beside:
                made = Path(beside) / "vendor"
                _copy(fetched / "node_modules", made)
                (made / STAMP).write_text(_fingerprint(checkout) + "\n", "utf-8")
                if vendor.exists():
                    os.replace(vendor, Path(beside) / "old")
                os.replace(made, vendor)
        except OSError as error:
            raise AssetsError(f"{vendor} cannot be written ({error.strerror or error})") from None


def _run(command: list[str], folder: Path) -> None:
    try:
        done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=TIMEOUT_S, check=False)
    except subprocess.TimeoutExpired:
        raise AssetsError(f"npm did not end within {TIMEOUT_S} s") from None
    except OSError as error:
        raise AssetsError(f"npm does not start ({error.strerror or error})") from None
    if done.returncode != 0:
        words = [line for line in done.stderr.splitlines() if "error" in line.lower()] or ["it gave no reason"]
        raise AssetsError(f"npm failed: {words[0].strip()[:160]}")


def _copy(packages: Path, made: Path) -> None:
    for source, name in FILES.items():
        target = made / name
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            shutil.copyfile(packages / source, target)
        except FileNotFoundError:
            raise AssetsError(f"the package lacks {source}") from None
        if target.suffix in COMPRESSED:
            _compress(target)


def _compress(path: Path) -> None:
    """Put compressed forms beside a file, so that none is made while somebody waits for a page."""
    content = path.read_bytes()
    path.with_name(path.name + ".gz").write_bytes(gzip.compress(content, 9, mtime=0))
    try:
        import brotli
    except ImportError:  # a build without it: gzip is served
        return
    path.with_name(path.name + ".br").write_bytes(brotli.compress(content))


def _fingerprint(checkout: Path) -> str:
    found = hashlib.sha256((checkout / "package-lock.json").read_bytes())
    found.update(repr(sorted(FILES.items())).encode())
    return found.hexdigest()


def _is_ours(checkout: Path) -> bool:
    page = checkout / "package.json"
    lock = checkout / "package-lock.json"
    return page.is_file() and lock.is_file() and '"pellicle-assets"' in page.read_text("utf-8")
