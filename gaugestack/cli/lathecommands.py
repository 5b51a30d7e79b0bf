"""The commands about cones on the lathe: `lathe swing`, `offset`, `attachment`, `collars`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from gaugestack.cli.figures import SketchOption, SvgOption, save_drawing, sketched
from gaugestack.cli.shared import JsonOption, finish

if TYPE_CHECKING:
    from gaugestack.answers.measured import Judging, Measured

app = typer.Typer()

ConeArgument = Annotated[
    list[str], typer.Argument(metavar="CALLOUT...", help="3in/ft, 1:20, 7deg/side, morse 3, ...")
]
BandOption = Annotated[
    str | None,
    typer.Option("--band", metavar="ANGLE", help="One-sided tolerance of the half angle, like 1m."),
]
InsideOption = Annotated[bool, typer.Option("--inside", help="The taper is a bore: it may err slow.")]
PartLengthOption = Annotated[
    str | None, typer.Option("--part-length", metavar="LENGTH", help="Say the error over this length.")
]
RadiusOption = Annotated[
    str | None, typer.Option("--radius", metavar="LENGTH", help="Indicator on the slide, from its pivot.")
]


def judging(band: str | None, inside: bool, length: str | None, radius: str | None) -> Judging:  # noqa: FBT001  (an option's value, not a switch of this function)
    """Return how a measured angle is judged."""
    from gaugestack.answers.measured import Judging  # noqa: PLC0415

    return Judging(band=band, inside=inside, length=length, radius=radius)


def leave_judged(found: Measured | None) -> None:
    """Leave with an honest no where a measured taper is outside its band."""
    from gaugestack.errors import ExitCode  # noqa: PLC0415

    if found and found.verdict and not found.verdict.accepted:
        raise typer.Exit(ExitCode.NO)


@app.command(epilog="Example: gaugestack lathe swing morse 3 --travel 3in")
def swing(
    call_out: ConeArgument,
    travels: Annotated[
        list[str] | None,
        typer.Option("--travel", metavar="LENGTH", help="Travel to read over; several times: a table."),
    ] = None,
    reading: Annotated[
        str | None, typer.Option("--reading", metavar="LENGTH", help="What was read, per side.")
    ] = None,
    along: Annotated[
        str | None, typer.Option("--along", metavar="WAY", help="What was moved: slide or carriage.")
    ] = None,
    band: BandOption = None,
    inside: InsideOption = False,
    part_length: PartLengthOption = None,
    radius: RadiusOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Swing the compound slide, and read it with an indicator."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import lathe  # noqa: PLC0415
    from gaugestack.cards import jsonform, latheform, lathescreen  # noqa: PLC0415

    judged = judging(band, inside, part_length, radius)
    answer = lathe.swing(
        " ".join(call_out), travels=travels or (), reading=reading, along=along, judging=judged
    )
    figures = sketched(sketch, Geometry.COMPOUND, answer.taper)
    save_drawing(svg, Geometry.COMPOUND, answer.taper)
    finish(jsonform.text(latheform.swing_form(answer)) if json else lathescreen.swing_text(answer, figures))
    leave_judged(answer.measured)


@app.command(epilog="Example: gaugestack lathe offset morse 3 --between 10in --length 3in")
def offset(
    call_out: ConeArgument,
    between: Annotated[
        str, typer.Option("--between", metavar="LENGTH", help="Whole length between the centre points.")
    ],
    length: Annotated[str, typer.Option("--length", metavar="LENGTH", help="Length of the taper.")],
    limit: Annotated[
        str | None, typer.Option("--limit", metavar="LENGTH", help="Furthest the tailstock goes.")
    ] = None,
    measured: Annotated[
        str | None, typer.Option("--measured", metavar="LENGTH", help="The offset that is set now.")
    ] = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Set the tailstock over for a taper between centres."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import lathe  # noqa: PLC0415
    from gaugestack.cards import jsonform, latheform, lathescreen  # noqa: PLC0415
    from gaugestack.cards.rows import shown  # noqa: PLC0415

    answer = lathe.offset(
        " ".join(call_out), between=between, length=length, limit=limit, measured_offset=measured
    )
    figures = sketched(sketch, Geometry.CENTRES, answer.taper)
    unit = answer.between.unit
    sizes = {"S": shown(answer.offset.exact, unit), "L": shown(answer.between.length, unit)}
    save_drawing(svg, Geometry.CENTRES, answer.taper, **sizes)
    finish(jsonform.text(latheform.offset_form(answer)) if json else lathescreen.offset_text(answer, figures))


@app.command(epilog="Example: gaugestack lathe attachment 5/8in/ft --scale per-foot")
def attachment(
    call_out: ConeArgument,
    scale: Annotated[
        str | None,
        typer.Option("--scale", metavar="SCALE", help="What its scale counts: per-foot, half or included."),
    ] = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Set a taper attachment by what its scale counts."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import lathe  # noqa: PLC0415
    from gaugestack.cards import jsonform, latheform, lathescreen  # noqa: PLC0415

    answer = lathe.attachment(" ".join(call_out), scale=scale)
    figures = sketched(sketch, Geometry.CONE, answer.taper)
    save_drawing(svg, Geometry.CONE, answer.taper)
    finish(
        jsonform.text(latheform.attachment_form(answer))
        if json
        else lathescreen.attachment_text(answer, figures)
    )


@app.command(epilog="Example: gaugestack lathe collars 1:20 --difference 0.100in")
def collars(
    call_out: ConeArgument,
    difference: Annotated[
        str | None,
        typer.Option("--difference", metavar="LENGTH", help="Round difference of the two diameters."),
    ] = None,
    diameters: Annotated[
        tuple[str, str] | None,
        typer.Option("--collars", metavar="LARGE SMALL", help="Both diameters as measured."),
    ] = None,
    spacing: Annotated[
        str | None, typer.Option("--spacing", metavar="LENGTH", help="Between like edges of the collars.")
    ] = None,
    band: BandOption = None,
    inside: InsideOption = False,
    part_length: PartLengthOption = None,
    radius: RadiusOption = None,
    sketch: SketchOption = False,
    svg: SvgOption = None,
    json: JsonOption = False,
) -> None:
    """Try the angle with two test collars: their spacing, or what they say."""
    from gaugestack.angles.sketch import Geometry  # noqa: PLC0415
    from gaugestack.answers import lathe  # noqa: PLC0415
    from gaugestack.cards import jsonform, latheform, lathescreen  # noqa: PLC0415
    from gaugestack.cards.rows import shown  # noqa: PLC0415

    answer = lathe.collars(
        " ".join(call_out),
        difference=difference,
        diameters=diameters,
        spacing=spacing,
        judging=judging(band, inside, part_length, radius),
    )
    figures = sketched(sketch, Geometry.COLLARS, answer.taper)
    save_drawing(svg, Geometry.COLLARS, answer.taper, l=shown(answer.spacing, answer.unit_length.unit))
    finish(
        jsonform.text(latheform.collars_form(answer)) if json else lathescreen.collars_text(answer, figures)
    )
    leave_judged(answer.measured)
