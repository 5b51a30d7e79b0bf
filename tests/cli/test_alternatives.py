"""What `stack` lists beside the best stack."""

from pathlib import Path

from tests.cli.shell import gaugestack

BOATYARD = str(Path(__file__).parents[2] / "demo" / "boatyard-inch.yaml")
ASKED = ("stack", "0.6202in", "--set", "inch-81")


def nominals(stack):
    return [block["nominal"] for block in stack["blocks"]]


def test_the_next_best_stacks_follow_the_first():
    done = gaugestack(*ASKED, "--next", "2", "--json")

    assert done.code == 0
    assert nominals(done.json["stacks"][0]) == ["0.400 in", "0.1002 in", "0.120 in"]
    assert [nominals(stack) for stack in done.json["next_best"]["stacks"]] == [
        ["0.300 in", "0.120 in", "0.1002 in", "0.100 in"],
        ["0.300 in", "0.119 in", "0.101 in", "0.1002 in"],
    ]
    assert done.json["next_best"]["complete"] is False


def test_the_screen_numbers_them_on_from_the_first():
    out = gaugestack(*ASKED, "--next", "2").out

    assert "  2   4 blocks  exactly         0.300 in + 0.120 in + 0.1002 in + 0.100 in" in out
    assert max(map(len, out.splitlines())) <= 80


def test_where_there_is_no_other_stack_it_says_so():
    out = gaugestack("stack", "0.05in", "--set", "inch-81", "--next", "1").out

    assert "there is no other stack" in out


def test_the_proof_stack_shares_no_block_with_the_first():
    done = gaugestack(*ASKED, "--proof-stack", "--json")

    first, proof = done.json["stacks"][0], done.json["proof_stack"]
    assert (done.code, proof["outcome"]) == (0, "found")
    assert proof["stack"]["length"] == first["length"]
    assert not set(nominals(first)) & set(nominals(proof["stack"]))


def test_without_a_proof_stack_the_answer_is_an_honest_no():
    done = gaugestack("stack", "0.05in", "--set", "inch-81", "--proof-stack")

    assert done.code == 1
    assert "proof stack: none; without the blocks of the first no combination" in done.out


def test_a_proof_stack_on_wear_blocks_needs_a_pair_of_its_own():
    done = gaugestack(*ASKED, "--wear", "inch-wear-0.050", "--proof-stack")

    assert done.code == 2
    assert "2 stacks need 2 pairs of wear blocks" in done.err


def test_trade_offs_have_more_blocks_and_a_smaller_deviation():
    done = gaugestack(
        "stack", "0.62025in", "--basis", "certified", "--set", BOATYARD, "--trade-offs", "--json"
    )

    counts = [stack["count"] for stack in done.json["trade_offs"]["stacks"]]
    assert done.code == 0
    assert len(counts) > 1
    assert counts == sorted(set(counts))


def test_an_exact_stack_has_nothing_to_trade():
    assert "no stack of more blocks comes nearer" in gaugestack(*ASKED, "--trade-offs").out


def test_an_impossible_height_has_nothing_beside_it():
    done = gaugestack("stack", "0.0503in", "--set", "inch-81", "--next", "3", "--json")

    assert (done.code, done.json["outcome"]) == (1, "impossible")
    assert "next_best" not in done.json


def test_several_heights_are_refused():
    done = gaugestack("stack", "0.6in", "0.7in", "--next", "2")

    assert done.code == 2
    assert "one height at a time" in done.err


def test_a_list_has_at_least_one_stack_and_not_too_many():
    assert "at least 1 is listed" in gaugestack(*ASKED, "--next", "0").err
    assert "1 to 50 can be listed" in gaugestack(*ASKED, "--next", "51").err
    assert gaugestack(*ASKED, "--next", "1").code == 0
