"""Settings that all tests share."""

from hypothesis import HealthCheck, settings

# Bounded and repeatable: the same run twice gives the same cases, and a slow machine passes.
settings.register_profile(
    "borewright",
    deadline=None,
    derandomize=True,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("borewright")
