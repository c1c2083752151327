"""The piece of meat as physics sees it: what it is made of across its thickness, and how heat, water and solutes move.

Relations only, plain enough for the kernel to compile. Knows no house and no schedule; ``run`` puts both together.
"""
