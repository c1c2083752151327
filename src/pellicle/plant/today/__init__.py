"""The first screen. Until there are houses and batches it says so, and what state the plant's records are in."""
