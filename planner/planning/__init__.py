"""From a job file and a rulebook to a plan: reading, questions, stage, the plan document."""
