"""Frozen records that the parts hand to each other: the job and the plan."""
