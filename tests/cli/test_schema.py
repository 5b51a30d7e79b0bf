"""The command `schema`: the names, one schema as it is carried, a name nobody knows."""

import json

from gaugestack.cli.schemacommand import SCHEMAS
from tests.cli.shell import gaugestack


def test_without_a_name_every_schema_is_listed():
    done = gaugestack("schema")

    names = [line.split()[0] for line in done.out.splitlines()]
    assert (done.code, done.err, names) == (0, "", sorted(path.stem for path in SCHEMAS.iterdir()))
    assert max(map(len, done.out.splitlines())) < 80


def test_a_schema_is_printed_as_it_is_carried():
    done = gaugestack("schema", "stack")

    assert (done.code, done.out) == (0, (SCHEMAS / "stack.json").read_text(encoding="utf-8"))
    assert done.json["title"] == "gaugestack/stack"


def test_a_name_nobody_knows_is_refused_with_the_nearest():
    done = gaugestack("schema", "stak")

    assert (done.code, done.out) == (2, "")
    assert done.err == "NAME: there is no schema 'stak'\n  did you mean 'stack'?\n"


def test_a_name_is_no_way_out_of_the_folder():
    assert gaugestack("schema", "../schemas/stack").code == 2


def test_every_answer_names_the_schema_it_has():
    answer = gaugestack("set", "list", "--json").json

    assert (
        json.loads(gaugestack("schema", answer["schema"].removeprefix("gaugestack/")).out)["title"]
        == (answer["schema"])
    )
