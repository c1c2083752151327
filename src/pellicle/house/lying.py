"""A piece as the house meets it: its thickness, its open faces, how it starts."""

from __future__ import annotations

from dataclasses import dataclass

from pellicle import parameter
from pellicle.air.film import edge_thickness_m
from pellicle.errors import InputError
from pellicle.message import Message, message
from pellicle.passage import Lie
from pellicle.product import Product
from pellicle.units import show_length

SPREAD_MOST = 0.5  # of the thickness: beyond, some pieces would have none


@dataclass(frozen=True, slots=True)
class PieceSetup:
    """One piece in SI: ``thickness_m`` as cut, ``slab_m`` of the endless slab with as much surface per volume.

    ``open_share_below`` is 1 for a hung piece, 0 on a solid tray. ``loaded_depth_m`` is 0 once a marinade is even.
    """

    thickness_m: float
    slab_m: float
    spread_m: float
    length_m: float
    open_share_below: float
    start_c: float
    loaded_depth_m: float
    assumed: tuple[Message, ...]


def resolve_piece(product: Product) -> PieceSetup:
    """Return the piece of a product; InputError if it has no thickness or one that contradicts the rest."""
    piece, model = product.piece, product.model
    if piece.thickness_m is None:
        raise InputError("house.no_thickness", field="piece.thickness")
    thickness, spread, depth = piece.thickness_m, piece.spread_m or 0.0, piece.loaded_depth_m or 0.0
    if spread > SPREAD_MOST * thickness:
        raise InputError(
            "house.spread", field="piece.spread", read=show_length(spread), thickness=show_length(thickness)
        )
    if piece.width_m is not None and piece.width_m < thickness:
        width = show_length(piece.width_m)
        raise InputError("house.width", field="piece.width", read=width, thickness=show_length(thickness))
    if depth > thickness / 2:
        raise InputError(
            "house.loaded_depth", field="piece.loaded_depth", read=show_length(depth), half=show_length(thickness / 2)
        )
    assumed = []
    if piece.lie is None and piece.open_share_below is None:
        assumed.append(message("house.assumed_hung"))
    slab = thickness if piece.width_m is None else float(edge_thickness_m(thickness, piece.width_m))
    below = {
        None: 1.0,
        Lie.HUNG: 1.0,
        Lie.SCREEN: parameter.value("screen_open_share", model),
        Lie.TRAY: 0.0,
    }[piece.lie]
    return PieceSetup(
        thickness_m=thickness,
        slab_m=slab,
        spread_m=spread,
        length_m=piece.length_m or piece.width_m or parameter.value("piece_length_in_air", model),
        open_share_below=below if piece.open_share_below is None else piece.open_share_below,
        start_c=parameter.value("start_temperature_c", model)
        if piece.start_temperature_c is None
        else piece.start_temperature_c,
        loaded_depth_m=depth,
        assumed=tuple(assumed),
    )
