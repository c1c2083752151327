"""Where each number stands in the arrays that the kernel reads: parameters, steps, extra states, counters.

Plain integers, so that a compiler sees constants. The state of a piece is one row per node: water, enthalpy, salts,
sugars (the last two only where they move) and, last, the memory of cooking.
"""

from __future__ import annotations

from typing import Any, TypeAlias

# A float. Relations take arrays as well, so that a type checker cannot say it, though the compiler knows.
Scalar: TypeAlias = Any

# fields of a node (columns of the state), per kg of dry matrix
X, H, S1, S2 = 0, 1, 2, 3
UNIFORM, MOVING = (0.0, 0.0), (0.0, 0.0, 0.0, 0.0)  # their length is the number of fields, known when compiling

# rows of the grid
MASS, GAP, REFERENCE = 0, 1, 2  # kg matrix/m2 of a node; kg/m2 to the next node; water held before cooking, kg/kg
GRID_ROWS = 3

# parameters of the piece
(
    CP_MATRIX, CP_SALT, CP_SUGAR,  # J/kg/K
    VOLUME_MATRIX, VOLUME_SALT, VOLUME_SUGAR,  # m3/kg
    CONDUCTS_MATRIX, CONDUCTS_SALT, CONDUCTS_SUGAR, CONDUCTS_WATER,  # W/m/K times m3/kg
    FIXED_SALT, FIXED_SUGAR,  # kg/kg matrix where they do not move
    D_WATER, EA_WATER, SLOPE_WATER,  # m2/s, J/mol, 1
    D_JUICE, PRESSED_PER_LOSS, DRIP_SPEED, MEMORY_SPEED,  # m2/s, kg/kg matrix, m/s, 1/s
    D_SALT, D_SUGAR, EA_SOLUTE, DRAG,  # m2/s, m2/s, J/mol, 1 (below 0: neutral)
    CAPACITY, SALT_MOL, SUGAR_MOL, ROOT_K, OSMOL, OSMOL_SALT, INTERACTION,  # of the water activity model
    B0, B1, C, LOG_CORRECTION,
    LEWIS, PRESSURE,  # 1, Pa
    LOAD_PER_AREA,  # m2 of slab in the house: what multiplies a flux to give kg/s
    GREEN,  # kg/m2 of slab, marinated
    MATRIX,  # kg/m2 of slab
    FIXED_LOSS,  # kg/kg matrix that never moves besides the matrix itself (fixed salts and sugars)
    LOWER_OPEN,  # share of the lower face that the air reaches
    MIDDLE,  # index of the node at the middle of the piece
    PARAMETERS,
) = range(43)  # fmt: skip

# columns of a step
(
    LASTS, RAMP,  # s: longest duration; how long the set points move from start to end
    AIR_FROM, AIR_TO,  # C
    HUMIDITY_KIND, HUMID_FROM, HUMID_TO,  # RELATIVE, WET_BULB: set; DAMPER: a state; SEALED: nothing passes
    FILM, EMISSIVITY,  # W/m2/K, 1
    FRESH, FRESH_RATIO, STEAM, FLAME, CONDENSE, HOUSE_AIR,  # kg/s, kg/kg, kg/s, kg per kg evaporated, 1/s, kg dry air
    UNTIL_CORE, UNTIL_WEIGHT, UNTIL_AW, UNTIL_GAP,  # C, share of marinated weight, 1, 1; NaN where nothing waits
    STEP_COLUMNS,
) = range(20)  # fmt: skip
RELATIVE, WET_BULB, DAMPER, SEALED = 0.0, 1.0, 2.0, 3.0

# extra states after the nodes: the house's humidity ratio, then what passed the faces since the start, per m2 of slab
(
    HOUSE, VAPOUR, DRIP_WATER, DRIP_SALT, DRIP_SUGAR, HEAT_IN, HEAT_OUT, VENTED, STEAMED, CONDENSED,
    EXTRAS,
) = range(11)  # fmt: skip
FACE_EXTRAS = 6  # VAPOUR to HEAT_OUT come from the faces and follow their derivatives

# counters
STEPS, REJECTED, FORCED, NEAR_BOILING, AW_FLOORED, EVENT_TRIES, COUNTERS = range(7)

# why a step ended, and how a run did
TIME, CORE, WEIGHT, AW, GAP_REACHED, PASSED = range(6)
DONE, TOO_MANY, STUCK, CANCELLED, FULL = range(5)
