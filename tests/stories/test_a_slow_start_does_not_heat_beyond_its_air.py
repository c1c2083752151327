"""A wet bulb held while the dry bulb still climbed stood above it: over-full air that condensed on the pieces, heated
them to 63 C in air of 39 C, and credited more than twice the lethality there was."""

from __future__ import annotations

from pathlib import Path

from pellicle.answers.run import run
from pellicle.files.product_file import product_from_text

SLOW = """\
format = 1
[product]
name = "Test strips"
species = "pork"
[meat]
ingredient = "pork loin"
raw = "10 kg"
[[formula]]
ingredient = "salt"
amount = "1.7 % of raw"
[uptake]
taken_up = "100 %"
[piece]
thickness = "5.5 mm"
[[step]]
name = "cook"
dry_bulb = "70 C"
wet_bulb = "63 C"
ramp = "1.5 C/min"
for = "55 min"
"""


def test_pieces_stay_below_the_air_that_heats_them_while_it_climbs() -> None:
    history = run(product_from_text(SLOW, "strips.toml", Path("."))).history
    climbing = [at for at, dry_bulb in enumerate(history.dry_bulb_c) if dry_bulb < 63.0 and history.minutes[at] > 5.0]

    assert climbing
    # the history lies on a grid of times: between two points of the run it is off by some hundredths
    assert all(history.wet_bulb_c[at] <= history.dry_bulb_c[at] + 0.05 for at in climbing)
    assert all(history.surface_c[at] <= history.dry_bulb_c[at] for at in climbing)
