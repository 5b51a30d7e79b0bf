"""A pytest plugin of the copy: examples before random requests, fewer of these, no failure made smaller.

A mutant is dead at its first failure; what the smallest counterexample would
be, nobody asks.
"""

from hypothesis import Phase, settings

settings.register_profile(
    "mutation",
    derandomize=True,
    deadline=None,
    database=None,
    max_examples=30,
    phases=(Phase.explicit, Phase.generate),
)
settings.load_profile("mutation")


def pytest_collection_modifyitems(items):
    """Put the tests under Hypothesis last."""
    items.sort(key=lambda item: getattr(getattr(item, "obj", None), "is_hypothesis_test", False))
