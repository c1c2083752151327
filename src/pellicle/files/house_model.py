"""The shape of what a file says of the way through the house: [piece], [house], [[step]], and a house's own file."""

from __future__ import annotations

from pydantic import Field

from pellicle.files.table_model import Table, Text, Typed


class PieceTable(Table):
    """One slice."""

    thickness: Typed | None = Field(None, description="As cut, such as '6.5 mm' or '1/4 in': 0.5 mm to 50 mm.")
    spread: Typed | None = Field(None, description="Standard deviation of the thickness.")
    width: Typed | None = Field(None, description="Across the strip; a narrow strip also dries at its edges.")
    length: Typed | None = Field(None, description="Along the air; the width where it is not given.")
    lie: str = Field("", description="hung, screen or tray.")
    open_share_below: Typed | None = Field(
        None, description="Share of the lower face that meets the air, such as '70 %'; otherwise from lie."
    )
    start_temperature: Typed | None = Field(None, description="Of the pieces as they go in; 5 C if not given.")
    loaded_depth: Typed | None = Field(
        None, description="How deep a marinade just put on has gone, such as '0.5 mm'; leave out once it is even."
    )


class PositionTable(Table):
    """A place in the house that differs from the mean."""

    name: Text = Field(description="What the place is called, such as 'truck 2, bottom'.")
    air: Typed = Field("100 %", description="Its film coefficient as share of the house's mean, such as '75 %'.")
    warmer: Typed = Field("0 K", description="Its dry bulb above the set point, such as '2 K' or '-1.5 K'.")


class HouseTable(Table):
    """The machine: a file beside this one or values inline (which come first), and the load that shares it."""

    file: str = Field("", description="A house file beside this one, with the same keys in its own [house] table.")
    kind: str = Field("", description="One of the general kinds of house; see docs/houses.md.")
    load: Typed | None = Field(None, description="All that hangs in it, as marinated; the product's own if not given.")
    altitude: Typed | None = Field(None, description="Such as '1500 m' or '5000 ft'.")
    pressure: Typed | None = Field(None, description="Of the air there, instead of an altitude.")
    volume: Typed | None = Field(None, description="Of the air inside, such as '12 m3'.")
    ambient_temperature: Typed | None = Field(None, description="Of the room the fresh air comes from.")
    ambient_humidity: Typed | None = Field(None, description="Relative humidity of that room.")
    damper: bool | None = Field(None, description="Whether it has a damper (or another way to let air in and out).")
    fresh_air: Typed | None = Field(None, description="Dry fresh air where no step says otherwise, such as '150 kg/h'.")
    fresh_air_open: Typed | None = Field(None, description="Dry fresh air with the damper fully open.")
    leak: Typed | None = Field(None, description="Dry fresh air with the damper shut.")
    steam: Typed | None = Field(None, description="Steam blown in where no step says otherwise, such as '8 kg/h'.")
    combustion_water: Typed | None = Field(
        None, description="Water from gas or wood burnt in the air, such as '2 kg/h'."
    )
    gas_fired: bool | None = Field(None, description="True if the flame's gases go through the house.")
    wall_condensation: float | None = Field(None, description="How fast wet air over saturation settles, 1/s.")
    air_speed: Typed | None = Field(None, description="Over the pieces, such as '1.5 m/s' or '300 ft/min'.")
    film_coefficient: Typed | None = Field(None, description="Heat transfer to a piece, such as '20 W/m2K'.")
    emissivity: Typed | None = Field(None, description="Of meat and walls together, 0 to 1; 0 leaves radiation out.")
    view_factor: Typed | None = Field(None, description="Share of its surroundings that are warm wall, 0 to 1.")
    arrangement: str = Field("", description="single layer, hung rows or stacked screens: gives the view factor.")
    position: list[PositionTable] = Field(default_factory=list)


class HouseFile(Table):
    """A house file, format 1."""

    format: int = Field(description="1")
    house: HouseTable


class StepTable(Table):
    """One step of the schedule: air, one way of saying its humidity, one end, and at most how long."""

    name: Text = Field(description="What the step is called, such as 'cook'.")
    dry_bulb: Typed | None = Field(None, description="Set point of the air.")
    wet_bulb: Typed | None = Field(None, description="Humidity by the wet bulb ...")
    humidity: Typed | None = Field(None, description="... or by relative humidity ...")
    damper: Typed | None = Field(
        None, description="... or left to the load: how far the damper is open, 0 % to 100 % ..."
    )
    fresh_air: Typed | None = Field(None, description="... or how much fresh air that lets in, such as '150 kg/h'.")
    ramp: Typed | None = Field(None, description="How the set point is reached: '20 min', or '1 C/min'.")
    steam: Typed | None = Field(None, description="Steam blown in, such as '8 kg/h'.")
    air_speed: Typed | None = Field(None, description="In this step, if it differs.")
    film_coefficient: Typed | None = Field(None, description="In this step, if it differs.")
    smoke: bool = Field(False, description="True while smoke is made.")
    rest: bool = Field(False, description="True if the pieces are sealed, bagged or covered: no water leaves.")
    for_: Typed | None = Field(None, alias="for", description="Ends after this time ...")
    until_core: Typed | None = Field(None, description="... or when the core reaches a temperature ...")
    until_weight: Typed | None = Field(
        None, description="... or at a weight: '52 % of raw', '48 % of marinated' or '44 kg' ..."
    )
    until_aw: Typed | None = Field(None, description="... or at a mean water activity ...")
    until_gap: Typed | None = Field(None, description="... or when wettest and driest depth differ by this much aw.")
    at_most: Typed | None = Field(None, description="Ends it in any case.")
