"""The options of the budget commands: circumstances, limits of a bar, what is to be decided.

Defaults stand in brackets; the answer prints every one that was assumed.
"""

from __future__ import annotations

from typing import Annotated

import typer

AnyBasisOption = Annotated[
    str | None,
    typer.Option("--basis", metavar="BASIS", help="nominal or certified. [certified where it is stated]"),
]
TemperatureOption = Annotated[
    str | None, typer.Option("--temperature", metavar="TEMP", help="Of the room: 21.5C, 70F. [20C]")
]
TemperatureLimitOption = Annotated[
    str | None, typer.Option("--temperature-limit", metavar="K", help="How far that may be off. [2K]")
]
BlocksAboveOption = Annotated[
    str | None, typer.Option("--blocks-above", metavar="K", help="Blocks warmer than the room by. [0K]")
]
PartAboveOption = Annotated[
    str | None, typer.Option("--part-above", metavar="K", help="Part warmer than the room by. [0K]")
]
BarAboveOption = Annotated[
    str | None, typer.Option("--bar-above", metavar="K", help="Bar warmer than the room by. [0K]")
]
WarmthLimitOption = Annotated[
    str | None,
    typer.Option("--warmth-limit", metavar="K", help="How far blocks, bar, part may differ. [0.5K]"),
]
PartMaterialOption = Annotated[
    str | None,
    typer.Option("--part-material", metavar="NAME", help="Or its growth in 1e-6/K: 23.1+-1.2. [steel]"),
]
BarMaterialOption = Annotated[
    str | None,
    typer.Option("--bar-material", metavar="NAME", help="Or its growth in 1e-6/K: 11.5+-1. [steel]"),
]
BlockMaterialOption = Annotated[
    list[str] | None,
    typer.Option("--block-material", metavar="NAME=GROWTH", help="Of the blocks: steel=11.5+-0.5."),
]
FilmOption = Annotated[
    str | None, typer.Option("--film", metavar="LENGTH", help="How far a wrung joint may be off. [25nm]")
]
TogetherOption = Annotated[
    bool, typer.Option("--joints-together", help="All joints go wrong the same way. [each alone]")
]
FootOption = Annotated[
    bool,
    typer.Option("--foot/--no-foot", show_default=False, help="The stack's foot is a joint too. [it is]"),
]
SharedOption = Annotated[
    str | None,
    typer.Option("--shared", metavar="PART", help="Part a certificate's blocks have in common. [100%]"),
]
FactorOption = Annotated[
    str | None, typer.Option("--k", metavar="K", help="Coverage factor. [for 95.45 % of cases]")
]
DrawingOption = Annotated[
    str | None,
    typer.Option(
        "--drawing-tolerance", metavar="T", help="Plus and minus; is it met? Decided by ISO 14253-1."
    ),
]
LeastOption = Annotated[
    bool, typer.Option("--least-uncertainty", help="Choose the stack that is known best.")
]
WithinOption = Annotated[
    str | None,
    typer.Option("--within-uncertainty", metavar="U", help="Choose the fewest blocks known within U."),
]
CorrectOption = Annotated[
    bool, typer.Option("--correct-temperature", help="Correct the height for what warmth does to it.")
]
EveryOption = Annotated[bool, typer.Option("--every", help="Show every line, the smallest too.")]
BarLimitOption = Annotated[
    str | None, typer.Option("--bar-limit", metavar="LENGTH", help="Of the centre distance. [usual]")
]
RollsLimitOption = Annotated[
    str | None, typer.Option("--rolls-limit", metavar="LENGTH", help="Difference of the rolls. [2um]")
]
FaceLimitOption = Annotated[
    str | None, typer.Option("--face-limit", metavar="LENGTH", help="Face flat and parallel. [1um]")
]
PlateLimitOption = Annotated[
    str | None, typer.Option("--plate-limit", metavar="LENGTH", help="Plate flat under the bar. [1.5um]")
]
YawOption = Annotated[
    str | None, typer.Option("--yaw", metavar="ANGLE", help="Work turned on the bar. [0.25deg]")
]
OverOption = Annotated[
    str | None, typer.Option("--over", metavar="LENGTH", help="Tell the taper error over this. [the bar]")
]
