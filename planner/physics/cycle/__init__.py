"""The closed cycle of one cylinder: charge, burn, heat, knock, and the ratio they allow.

Light modules hold the formulas that rules call; they import numpy and the rest of the model
only when one is asked for.
"""
