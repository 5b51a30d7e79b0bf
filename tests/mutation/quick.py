"""A pytest plugin of the copy: examples before random requests, fewer of these, no failure made smaller.

A mutant is dead at its first failure; what the smallest counterexample would
be, nobody asks.
"""

import json
from pathlib import Path

from hypothesis import Phase, settings

MOST_EXAMPLES = 30

settings.register_profile(
    "mutation",
    derandomize=True,
    deadline=None,
    database=None,
    max_examples=MOST_EXAMPLES,
    phases=(Phase.explicit, Phase.generate),
)
settings.load_profile("mutation")


def pytest_collection_modifyitems(items):
    """Put the quickest tests first, the tests under Hypothesis last, and these to as few examples as said."""
    took = _durations()
    for item in items:
        test = getattr(item, "obj", None)
        asked = getattr(test, "_hypothesis_internal_use_settings", None)
        if asked is not None and asked.max_examples > MOST_EXAMPLES:
            test._hypothesis_internal_use_settings = settings(asked, max_examples=MOST_EXAMPLES)
    items.sort(
        key=lambda item: (
            getattr(getattr(item, "obj", None), "is_hypothesis_test", False),
            took.get(item.nodeid, 0.0),
        )
    )


def _durations():
    """Return how long each test took when the tool last looked; nothing before it did."""
    told = Path("mutmut-stats.json")
    return json.loads(told.read_text(encoding="utf-8"))["duration_by_test"] if told.exists() else {}
