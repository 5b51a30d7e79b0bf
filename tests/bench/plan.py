"""How much is measured: the full run, and the smoke run for each change."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """How many cases each figure gets; peers are slow and get a sub-sample."""

    sets: tuple[str, ...]
    heights: int
    plain: int
    milp: int
    plain_limit: float
    milp_limit: float
    jobs: int
    joint: int
    stacks: tuple[int, ...]
    setups: tuple[int, ...]
    plans: int
    tables: int
    starts: int
    commands: int
    sizes: int
    lists: tuple[int, ...]
    repeats: int
    at_once: tuple[int, ...]
    joint_limit: float
    long: int
    answers: int


FULL = Plan(
    sets=("inch-81", "metric-88", "metric-112", "metric-122"),
    heights=300,
    plain=30,
    milp=10,
    plain_limit=20.0,
    milp_limit=60.0,
    jobs=30,
    joint=9,
    stacks=(2, 3),
    setups=(6, 12),
    plans=7,
    tables=15,
    starts=15,
    commands=45,
    sizes=4,
    lists=(1, 10, 100),
    repeats=5,
    at_once=(10, 100),
    joint_limit=5.0,
    long=2000,
    answers=15,
)
QUICK = Plan(
    sets=("inch-81",),
    heights=40,
    plain=5,
    milp=4,
    plain_limit=1.0,
    milp_limit=5.0,
    jobs=3,
    joint=3,
    stacks=(2,),
    setups=(4,),
    plans=2,
    tables=5,
    starts=3,
    commands=3,
    sizes=1,
    lists=(1, 10),
    repeats=3,
    at_once=(10, 100),
    joint_limit=1.0,
    long=0,
    answers=3,
)
