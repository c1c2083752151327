"""Salt brines against an independent calculator: phreeqpython with the public Pitzer database, 5 to 80 C, to 5 mol/kg.

Another program, another implementation of the equations; ours may differ by 0.002 in aw.
"""

from __future__ import annotations

import pytest

from pellicle.food.composition import Composition
from pellicle.food.electrolytes import brine_aw, salt_osmotic_coefficient_at
from pellicle.food.water_activity import aw, default_parameters, inputs

phreeqpython = pytest.importorskip("phreeqpython")

WITHIN = 0.002
MOLALITIES = (0.1, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0)
SCRIPT = """SOLUTION 1
 temp {temperature_c}
REACTION 1
 {salt} 1
 {molality} moles
SELECTED_OUTPUT 1
 -reset false
 -high_precision true
 -activities H2O
END
"""


def program_aw(salt: str, molality: float, temperature_c: float) -> float:
    # a fresh instance each time, the salt added by a reaction: the program balances charge badly otherwise
    program = phreeqpython.PhreeqPython(database="pitzer.dat").ip
    program.run_string(SCRIPT.format(salt=salt, molality=molality, temperature_c=temperature_c))
    return float(10.0 ** float(program.get_selected_output_array()[-1][-1]))


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("temperature_c", [5.0, 20.0, 25.0, 40.0, 60.0, 70.0, 80.0])
def test_salt_with_temperature(temperature_c: float) -> None:
    for molality in MOLALITIES:
        ours = float(brine_aw(molality, salt_osmotic_coefficient_at(molality, temperature_c)))
        assert abs(ours - program_aw("NaCl", molality, temperature_c)) <= WITHIN


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(
    ("salt", "solute", "kg_per_mol"), [("NaCl", "salt", 0.058443), ("KCl", "potassium chloride", 0.074551)]
)
def test_the_product_model_at_25_c(salt: str, solute: str, kg_per_mol: float) -> None:
    for molality in (0.5, 1.0, 2.0, 3.0, 4.0):
        made = Composition(water=1.0, solutes={solute: molality * kg_per_mol})
        ours = float(aw(inputs(made), default_parameters()))
        assert abs(ours - program_aw(salt, molality, 25.0)) <= WITHIN


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("potassium_share", [0.3, 0.6])
def test_a_mixture_of_salt_and_potassium_chloride(potassium_share: float) -> None:
    """Mole-weighted coefficients leave out what the two salts do to one another; the program has it."""
    program = phreeqpython.PhreeqPython(database="pitzer.dat").ip
    script = SCRIPT.replace(" {salt} 1\n", " NaCl {sodium}\n KCl {potassium}\n")
    sodium, potassium = 1.0 - potassium_share, potassium_share
    program.run_string(script.format(sodium=sodium, potassium=potassium, molality=3.0, temperature_c=25))
    solutes = {"salt": 3.0 * sodium * 0.058443, "potassium chloride": 3.0 * potassium * 0.074551}
    made = Composition(water=1.0, solutes=solutes)
    theirs = 10.0 ** float(program.get_selected_output_array()[-1][-1])
    assert abs(float(aw(inputs(made), default_parameters())) - theirs) <= WITHIN
