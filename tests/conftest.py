"""What every test shares: how random the property tests are."""

from __future__ import annotations

import os

from hypothesis import settings

# The build repeats the same examples every time; at a desk each run looks for new ones and prints how to repeat a
# failure. No deadline: tests count work, never time.
settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("desk", deadline=None, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")
