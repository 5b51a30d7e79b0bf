"""Job files: what they may say, and every mistake with its place."""

import pytest

from gaugestack.angles.taper import Use
from gaugestack.errors import RefusedFile
from gaugestack.inventory.jobfile import Order, Wanted, job_of_text, load_job

JOB = """\
format: 1
name: Vice jaws
set: inch-81
bar: 5in
order: free
setups:
  - {name: jaw, height: 0.6202}
  - {name: wedge, angle: 7d7m30s, bar: 10in, note: left side}
  - {taper: 3in/ft, for: compound}
  - {name: gib, taper: flat 1:12}
"""


def problems(text, head="format: 1\n"):
    """Return (line, column, sentence) of every problem."""
    with pytest.raises(RefusedFile) as refused:
        job_of_text(head + text, file="j.yaml")
    return [(p.place.line, p.place.column, p.sentence) for p in refused.value.problems]


def test_a_job_keeps_its_texts_and_their_places(tmp_path):
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    job = load_job(path)
    assert (job.name, job.set.text, job.bar.text, job.order) == ("Vice jaws", "inch-81", "5in", Order.FREE)
    assert [one.name for one in job.setups] == ["jaw", "wedge", "set-up 3", "gib"]
    assert [one.wanted for one in job.setups] == [Wanted.HEIGHT, Wanted.ANGLE, Wanted.TAPER, Wanted.TAPER]
    assert [one.text.text for one in job.setups] == ["0.6202", "7d7m30s", "3in/ft", "flat 1:12"]
    assert [one.use for one in job.setups] == [None, None, Use.COMPOUND, None]
    assert [one.bar and one.bar.text for one in job.setups] == [None, "10in", None, None]
    assert (job.setups[1].text.place.line, job.setups[1].text.place.column) == (8, 26)


def test_without_order_the_order_of_the_file_stands():
    job = job_of_text("format: 1\nsetups: [{height: 1in}]\n", file="j.yaml")
    assert (job.order, job.name, job.set, job.bar) == (Order.FIXED, "j", None, None)


def test_a_set_up_without_a_name_does_not_clash_with_a_named_one():
    job = job_of_text("format: 1\nsetups: [{height: 1in}, {height: 2in}]\n", file="j.yaml")
    assert [one.name for one in job.setups] == ["set-up 1", "set-up 2"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("setups: []\n", (2, 9, "setups is empty: a job has at least one set-up")),
        ("setups: 1in\n", (2, 9, "setups is a list")),
        ("name: x\n", (1, 1, "the key 'setups' is missing")),
        ("setups: [1in]\n", (2, 10, "a set-up is written with keys and values")),
        ("setups: [{name: a}]\n", (2, 10, "a set-up has one of height, angle and taper, not 0")),
        (
            "setups: [{height: 1in, angle: 3d}]\n",
            (2, 10, "a set-up has one of height, angle and taper, not 2"),
        ),
        ("setups: [{height: 1ni}]\n", (2, 20, "'ni' is not a unit of length")),
        ("setups: [{angle: 3x}]\n", (2, 19, "'x' is not a mark of degrees, minutes or seconds")),
        ("setups: [{height: 1in, bar: 5in}]\n", (2, 24, "a height needs no bar")),
        ("setups: [{taper: 3in/ft}]\n", (2, 18, "a taper needs to say what it is set up for")),
        (
            "setups: [{angle: 3d, for: compound}]\n",
            (2, 22, "'for' belongs to a cone: it has no meaning with angle"),
        ),
        (
            "setups: [{taper: 'flat 1:12', for: compound}]\n",
            (2, 31, "'for' belongs to a cone: a flat has one angle only"),
        ),
        (
            "setups: [{taper: 3in/ft, for: lathe}]\n",
            (2, 31, "for is compound or inspection, not 'lathe'"),
        ),
        ("order: any\nsetups: [{height: 1in}]\n", (2, 8, "order is free or fixed, not 'any'")),
        (
            "setups: [{name: A, height: 1in}, {name: a, height: 2in}]\n",
            (2, 34, "the set-up 'a' stands twice: first in line 2"),
        ),
        ("sets: x\nsetups: [{height: 1in}]\n", (2, 1, "a job file has no key 'sets'")),
        ("setups: [{heigth: 1in, height: 1in}]\n", (2, 11, "a set-up has no key 'heigth'")),
        ("set:\nsetups: [{height: 1in}]\n", (2, 5, "set has no value")),
    ],
)
def test_a_mistake_is_named_with_its_place(text, expected):
    assert expected in problems(text)


def test_all_mistakes_are_said_at_once_and_in_order():
    found = problems("order: any\nsetups:\n  - {height: 1ni}\n  - {angle: 3x}\n  - {taper: 3in/ft}\n")
    assert [line for line, _, _ in found] == [2, 4, 5, 6]


def test_more_set_ups_than_any_job_has_are_refused():
    items = ", ".join("{height: 1in}" for _ in range(101))
    assert problems(f"setups: [{items}]\n")[0][2] == "101 set-ups: a job has at most 100"
    assert len(job_of_text(f"format: 1\nsetups: [{items[:-15]}]\n", file="j").setups) == 100
