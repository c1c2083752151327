"""Django for every test, on a data folder of its own: the modules of the plant cannot be imported without it."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

FOLDER = tempfile.mkdtemp(prefix="pellicle-tests-")
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)
os.environ["PELLICLE_DATA"] = FOLDER
os.environ["DJANGO_SETTINGS_MODULE"] = "pellicle.plant.settings"

import django  # noqa: E402  # needs the two lines above

django.setup()
