"""The graph of operations: which are in the plan, in what order, and why in that order."""
