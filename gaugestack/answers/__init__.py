"""One function a command, joining the areas into frozen answers.

Nothing here prints, or looks at clock, environment or working directory;
files are opened by inventory/ alone.
"""

from gaugestack.answers.angle import AngleAnswer, angle, find_bar
from gaugestack.answers.options import Choice
from gaugestack.answers.sets import ListedSet, SetAnswer, check, listed, show
from gaugestack.answers.stack import StackAnswer, stack
from gaugestack.answers.taper import TaperAnswer, taper

__all__ = [
    "AngleAnswer",
    "Choice",
    "ListedSet",
    "SetAnswer",
    "StackAnswer",
    "TaperAnswer",
    "angle",
    "check",
    "find_bar",
    "listed",
    "show",
    "stack",
    "taper",
]
