"""A real browser and a real server: Debian's Chromium, driven by playwright, on a plant of its own."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from served import Served

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
# nothing is looked up outside, and root may run it
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


# of a module, not of the session: while the driver runs, Django takes the process for an asynchronous one
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Start the browser of this machine; skip where there is none, but fail where the build runs."""
    place = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    if place is None:
        why = "no Chromium on the path; on Debian: apt-get install chromium"
        if os.environ.get("CI"):
            pytest.fail(f"The build must run the browser tests: {why}")
        pytest.skip(why)
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=place, args=FLAGS)
        yield found
        found.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """Serve a new plant until the test is over."""
    folder = tmp_path / "plant"
    command = [sys.executable, "-m", "pellicle", "serve", "--data", str(folder), "--port", "0"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert process.stdout is not None
    try:
        said = "".join(process.stdout.readline() for _ in range(3))
        address = re.search(r"http://\S+?/", said)
        token = re.search(r"token=(\S+)", said)
        assert address
        assert token
        yield Served(address.group(), folder, token.group(1))
    finally:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=20)
