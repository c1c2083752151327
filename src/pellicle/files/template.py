"""The commented product file that ``pellicle new`` writes: it plans as it stands, and says what each line is for."""

from __future__ import annotations

import re

_TEMPLATE = """\
# A product of your own. Lines that begin with # are remarks or examples; take the mark away to use them.
# Amounts say what they are a share of: "9 % of raw" (raw = green weight: raw, trimmed meat), "3 % of total",
# "2 % of solution", "6 g/kg", "2.9 oz/lb", "4 oz per 100 lb", "150 ppm nitrite of raw", or a plain mass: "2 kg".
format = 1
# ingredients = "my-ingredients.toml"   # ingredients of your own, in a file beside this one

[product]
name = {name}
species = "beef"              # beef, pork, chicken, turkey, duck, venison, elk, bison, lamb, goat, fish ...
form = "whole muscle"         # whole muscle, tenderised, formed, ground
class = ["shelf-stable", "inspected"]   # shelf-stable, refrigerated or bacon; inspected, retail-exempt or home
jurisdiction = "us"           # us, eu, ca, codex; for others the cure check says "cannot tell"
pack = "air"                  # air, vacuum, gas-flushed, oxygen absorber
aw_limit = 0.85               # above 0.85 it needs aw_support, oxygen_evidence and opening_plan
# name_class = "jerky"        # the kind of name on the label, for the hints that go with it

[meat]
ingredient = "beef top round" # see: pellicle ingredients meat
raw = "20 kg"                 # green weight
# purchased = "22.8 kg"       # for the yield on what was paid for
# per_100g = {{ water = 72.9, protein = 23.1, fat = 2.8, ash = 1.1 }}   # instead of ingredient; add name = "..."

[[formula]]
ingredient = "water"
amount = "8 % of raw"

[[formula]]
ingredient = "salt"
amount = "1.7 % of raw"

[[formula]]
ingredient = "brown sugar"
amount = "4 % of raw"

[[formula]]
ingredient = "curing salt"
amount = "150 ppm nitrite of raw"   # the mass follows from the strength on the label
nitrite = "6.25 %"                  # READ IT OFF YOUR LABEL: 6.25 %, 5.88 %, 0.6 % and others exist

[[formula]]
ingredient = "black pepper"
amount = "0.6 % of raw"
# spoon = "2 tbsp"                  # a volume to cross-check the weight against

# [mixture."house rub"]             # a sub-formula; use it as an ingredient
# "paprika" = "60 %"
# "garlic powder" = "40 %"

# [bag."seasoning bag"]             # a bag whose make-up is known only from its label
# weight = "1 lb 2 oz"
# for_meat = "25 lb"                # then: amount = "1 bag per 25 lb"
# nitrite = "0.8 %"                 # as declared; "none" if the label declares none; leave out if you cannot tell
# order = ["salt", "sugar", "spices"]
# per_100g = {{ protein = 4, fat = 2, carbohydrate = 40, sugars = 30, sodium = 18 }}

[cure]
method = "tumbled"            # rubbed (no liquid), tumbled, injected, immersion-pickup, immersion-whole, ground

[uptake]                      # what the meat took up: one of these, or none if it is not known
taken_up = "95 %"             # share of the solution that went in
# pickup = "12 % of raw"      # solution taken up per green weight
# marinated = "22.4 kg"       # the weight after the hold or tumble

[scale]
division = "1 g"              # the smallest step of the scale you weigh with

# [[rack]]                    # to print what each truck, rack or screen weighs at the pull
# name = "truck 1"
# tare = "41 kg"
# loaded = "88.5 kg"
# marked = true               # the one in the slowest place

[piece]
thickness = "6.5 mm"          # or "1/4 in"
spread = "0.7 mm"             # standard deviation: measure ten pieces
lie = "hung"                  # hung, screen (open below) or tray (closed below)
# start_temperature = "5 C"
# loaded_depth = "0.5 mm"     # straight from the tumbler: how deep the marinade has gone; leave out once it is even

[house]                       # or file = "house-2.toml": the same keys, in a file beside this one
kind = "humidity-controlled house"   # or damper house, cabinet dryer, home oven, climate chamber ...
# load = "94 kg"              # all that hangs in it, as marinated
# altitude = "1600 m"
# air_speed = "1.5 m/s"       # or film_coefficient = "20 W/m2K"

[[step]]                      # each step: air, one way to say its humidity, one end
name = "cook"
dry_bulb = "68 C"
wet_bulb = "62 C"             # or humidity = "35 %", or damper = "20 %", or fresh_air = "150 kg/h"
for = "60 min"                # or until_core, until_weight, until_aw, until_gap; and at_most
# ramp = "10 min"             # how long the set point takes; or "1 C/min"

[[step]]
name = "dry"
dry_bulb = "72 C"
humidity = "22 %"
until_aw = 0.83               # of the whole piece; or until_weight = "46 % of raw"
at_most = "10 h"

# [plan]                      # your own plan; its limits come first in every list of checks
# version = "3"
# support = "name of the supporting document"
# humidity_option = "2021 option 3"      # what of it carries the lethality ...
# wet_bulb_hold = "57.2 C for 30 min"    # ... one of the two
# [[limit]]
# what = "ingoing nitrite"
# value = "at most 156 ppm"
# where = "weigh sheet"
# how_often = "every batch"

# [[reading]]                 # each lot you have read makes the pull weight surer
# lot = "A-101"
# raw = "10 kg"
# out = "4.9 kg"
# aw = [0.832, 0.828]
# standard_checked = true     # the meter was checked on a salt standard that day
"""


def template(name: str) -> str:
    """Return a commented product file for a product called ``name``."""
    quoted = '"' + name.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return _TEMPLATE.format(name=quoted)


def file_name(name: str) -> str:
    """Return the file a product's name gives.

    >>> file_name("Ember & Orchard Strips")
    'ember-orchard-strips.toml'
    """
    words = re.findall(r"\w+", name.casefold())
    return "-".join(words or ["product"]) + ".toml"
