"""Answers as JSON for scripts: a declared shape, exact lengths as text, sorted keys.

    >>> text(stack_form(answer))

`schema` names the shape, `version` is 1; fields are added, never renamed.
Every length is its exact text with a unit, every angle a float of degrees
rounded to 12 decimals, so that two machines print the same.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from gaugestack.cards.document import Json
from gaugestack.inventory.shipped import file_said
from gaugestack.lengths import Unit, exact_text
from gaugestack.stacks.request import Found, Impossible, Undecided

if TYPE_CHECKING:
    from gaugestack.angles.angle import Angle
    from gaugestack.angles.sine import SineBar
    from gaugestack.answers.angle import AngleAnswer
    from gaugestack.answers.oneline import Summary
    from gaugestack.answers.sets import ListedSet, SetAnswer
    from gaugestack.answers.stack import StackAnswer
    from gaugestack.answers.stock import Stock
    from gaugestack.blocks import Block
    from gaugestack.stacks.differencerequest import DifferenceFound
    from gaugestack.stacks.request import Built, StackRequest, WayOut
    from gaugestack.stacks.wringing import WringingPlan

VERSION = 1
Form = dict[str, Any]


def text(form: Form) -> Json:
    """Return the JSON text of a form, keys sorted, one newline at the end."""
    return Json(json.dumps(form, indent=2, sort_keys=True, ensure_ascii=False) + "\n")


def stack_form(answer: StackAnswer) -> Form:
    """Return the form "gaugestack/stack"."""
    return headed("stack", {**stack_fields(answer), "remarks": list(answer.remarks)})


def angle_form(answer: AngleAnswer) -> Form:
    """Return the form "gaugestack/angle"."""
    return headed("angle", angle_fields(answer))


def set_form(answer: SetAnswer, schema: str = "set") -> Form:
    """Return the form "gaugestack/set": every physical piece and whether it is fit for use."""
    stock, block_set = answer.stock, answer.stock.block_set
    form: Form = {
        "name": block_set.name,
        "unit": block_set.unit.value,
        "standard": block_set.standard,
        "grade": block_set.grade,
        "material": block_set.material,
        "source": block_set.source,
        "file": file_said(block_set.file),
        "pieces": stock.at_hand(),
        "step": exact_text(answer.step, block_set.unit),
        "lowest": exact_text(answer.lowest, block_set.unit),
        "highest": exact_text(answer.highest, block_set.unit),
        "blocks": [
            {
                **block_form(p.block),
                "fit_for_use": p.fit,
                **({"reasons": list(p.reasons)} if p.reasons else {}),
            }
            for p in stock.pieces
        ],
        "bars": [bar_form(bar) for bar in stock.bars],
        "remarks": list(answer.remarks),
    }
    if answer.every_step:
        form["every_step"] = [exact_text(length, block_set.unit) for length in answer.every_step]
    return headed(schema, form)


def list_form(sets: tuple[ListedSet, ...]) -> Form:
    """Return the form "gaugestack/sets"."""
    fields = [{"name": s.name, "pieces": s.pieces, "title": s.title, "source": s.source} for s in sets]
    return headed("sets", {"sets": fields})


def headed(schema: str, form: Form) -> Form:
    """Return a form with its schema and version."""
    return {"schema": f"gaugestack/{schema}", "version": VERSION, **form}


def stack_fields(answer: StackAnswer) -> Form:
    """Return what every answer with stacks says."""
    stock, outcome = answer.stock, answer.outcome
    fields: Form = {
        **source_fields(stock, answer.request),
        "tolerance": exact_text(answer.request.tolerance, stock.unit),
        "tolerance_reason": answer.tolerance_said,
        "stacks": [],
    }
    if answer.request.ends:
        fields["wear_pair"] = answer.request.ends[0][0].engraved
    if isinstance(outcome, Found):
        units = [height.unit for height in answer.heights]
        stacks = zip(outcome, answer.plans, units, strict=True)
        forms = [_planned(*stack) for stack in stacks]
        for form, known in zip(forms, answer.known, strict=False):
            form["uncertainty"] = _known(known)
        for form, role in zip(forms, answer.roles, strict=False):
            form["role"] = role
        return {**fields, "outcome": "found", "stacks": forms}
    if isinstance(outcome, Undecided):
        best = [built_form(built) for built in outcome.best]
        return {
            **fields,
            "outcome": "undecided",
            "reason": outcome.sentence,
            "best": best,
            "at_least": outcome.at_least,
        }
    return {**fields, **_impossible(outcome), **_failing(answer, outcome)}


def source_fields(stock: Stock, request: StackRequest) -> Form:
    """Return which blocks a request chooses from, and what length of theirs counts."""
    sets = [{"name": s.name, "file": file_said(s.file), "pieces": len(s.blocks)} for s in stock.sets]
    return {"set": sets[0], "sets": sets, "at_hand": stock.at_hand(), "basis": request.basis.value}


def _failing(answer: StackAnswer, outcome: Impossible) -> Form:
    """Return which of several heights fail, by themselves or together, as places from 1."""
    places = outcome.together if outcome.failing is None else (outcome.failing,)
    return {"failing": [place + 1 for place in places]} if len(answer.heights) > 1 else {}


def _known(summary: Summary) -> Form:
    """Return how well a result is known, in one sentence and its parts."""
    return {
        "expanded": summary.expanded,
        "k": round(summary.k, 6),
        "basis": summary.basis,
        "dominant": summary.mostly,
        "assumed": summary.assumed,
        "sentence": summary.sentence,
    }


def _impossible(outcome: Impossible) -> Form:
    """Return what is said of an impossible request: proof, reason, ladder."""
    return {
        "outcome": "impossible",
        "proof": outcome.proof.value,
        "reason": outcome.sentence,
        "ways_out": [_way(way) for way in outcome.ways_out],
    }


def _way(way: WayOut) -> Form:
    """Return one rung of the ladder."""
    form: Form = {"kind": way.kind, "sentence": way.sentence}
    if way.built:
        form["stack"] = built_form(way.built)
    if way.blocks:
        form["blocks"] = [block_form(block) for block in way.blocks]
    return form


def _planned(built: Built, plan: WringingPlan, unit: Unit) -> Form:
    """Return a stack found, its blocks in wringing order, and the steps."""
    steps = [{"action": s.action, "reason": s.reason, "basis": s.basis} for s in plan.steps]
    form = built_form(built, unit)
    return {**form, "blocks": [block_form(block, built) for block in plan.stack.blocks], "steps": steps}


def built_form(built: Built, unit: Unit | None = None) -> Form:
    """Return a stack: target, length, deviation, blocks."""
    own = built.blocks[0].unit
    return {
        "target": exact_text(built.target, unit or own),
        "length": exact_text(built.length, own),
        "nominal_length": exact_text(built.stack.length(), own),
        "deviation": exact_text(built.deviation, own),
        "blocks": [block_form(block, built) for block in built.blocks],
    }


def block_form(block: Block, built: Built | None = None) -> Form:
    """Return one block; in a stack with its `length` on the basis of the stack, deviation and trust."""
    form: Form = {"nominal": block.engraved}
    if built:
        form["length"] = exact_text(block.length(built.basis), block.unit)
        form["trust"] = block.trust.value
        if block.deviation is not None:
            form["deviation"] = exact_text(block.deviation, block.unit)
    if block.serial:
        form["serial"] = block.serial
    if block.wear:
        form["wear"] = True
    if block.owner:
        form["set"] = block.owner
    return form


def angle_fields(answer: AngleAnswer) -> Form:
    """Return what an angle's answer says beyond its stack."""
    from gaugestack.answers.angle import angle_by  # noqa: PLC0415  (only an angle's answer needs it)

    fields = stack_fields(answer.stack)
    for way, rung in zip(fields.get("ways_out", ()), _ways(answer), strict=False):
        done = (
            angle_by(rung.built, answer.asked, answer.bar)
            if rung.built and rung.kind != "other bar"
            else None
        )
        if done:
            way["achieved_angle_degrees"] = degrees(done.achieved)
            way["error_arcsec"] = seconds(done.error_arcsec)
    return {
        **fields,
        "angle_degrees": degrees(answer.asked),
        "height": exact_text(answer.height, answer.bar.unit),
        "achieved_angle_degrees": None if answer.achieved is None else degrees(answer.achieved),
        "error_arcsec": None if answer.error_arcsec is None else seconds(answer.error_arcsec),
        "height_per_arcsec_nm": round(answer.sensitivity / 1000, 6),
        "bar": bar_form(answer.bar),
        "caution": answer.caution.sentence if answer.caution else None,
        "smallest_angle_degrees": None if answer.smallest is None else degrees(answer.smallest),
        "remarks": list(answer.remarks),
        **({"uncertainty": _known(answer.known)} if answer.known else {}),
        **({"difference": _difference(answer.difference, answer.bar)} if answer.difference else {}),
    }


def _difference(found: DifferenceFound, bar: SineBar) -> Form:
    """Return by how much the two stacks of a difference set-up differ."""
    return {
        "target": exact_text(found.target, bar.unit),
        "length": exact_text(found.difference, bar.unit),
        "deviation": exact_text(found.deviation, bar.unit),
    }


def _ways(answer: AngleAnswer) -> tuple[WayOut, ...]:
    """Return the ladder of an angle's answer."""
    outcome = answer.stack.outcome
    return outcome.ways_out if isinstance(outcome, Impossible) else ()


def bar_form(bar: SineBar) -> Form:
    """Return a sine bar."""
    form: Form = {
        "name": bar.name,
        "centre_distance": exact_text(bar.effective, bar.unit),
        "kind": bar.kind,
    }
    if bar.error:
        form["nominal_centre_distance"] = exact_text(bar.centre_distance, bar.unit)
        form["centre_distance_error"] = exact_text(bar.error, bar.unit)
    if bar.base_height:
        form["base_height"] = exact_text(bar.base_height, bar.unit)
    return form


def degrees(angle: Angle) -> float:
    """Return degrees rounded to 12 decimals."""
    return round(angle.degrees, 12)


def seconds(arcseconds: object) -> float:
    """Return seconds of arc rounded to 6 decimals."""
    return round(float(arcseconds), 6)  # type: ignore[arg-type]
