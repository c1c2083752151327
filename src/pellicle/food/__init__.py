"""What the product is made of: composition by mass, the ingredient catalogue, solutes, sorption, water activity.

Everything here is about matter, nothing about amounts on a recipe or limits in a text. Read ``composition`` first, then
``ingredients`` for where compositions come from, then ``water_activity`` for what they do to water.
"""
