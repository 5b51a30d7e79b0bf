"""How long, wide and deep the package's functions and modules may be."""

import ast
from pathlib import Path
from statistics import median

from tests.sourcefiles import PACKAGE, area, trees

LONGEST_FUNCTION = 60
LONGEST_MODULE = 400
MOST_PARAMETERS = 6
DEEPEST = 3
NESTING = (ast.If, ast.For, ast.While, ast.With, ast.Try, ast.Match)


def functions():
    """Return every function of the package as (module, node)."""
    for module, tree in trees().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield module, node


def lines_of(node):
    return node.end_lineno - node.lineno + 1


def parameters(node):
    """Return how many parameters a function has, `self` and `cls` not counted."""
    every = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    every += [extra for extra in (node.args.vararg, node.args.kwarg) if extra]
    return sum(argument.arg not in ("self", "cls") for argument in every)


def depth(node):
    """Return how deep statements are nested inside one; an elif is no deeper than its if."""
    deepest = 0
    for name in ("body", "orelse", "finalbody", "handlers", "cases"):
        for child in getattr(node, name, []):
            further = isinstance(child, NESTING) and not _is_elif(node, name)
            deepest = max(deepest, further + depth(child))
    return deepest


def _is_elif(node, name):
    return isinstance(node, ast.If) and name == "orelse" and len(node.orelse) == 1


def spread(numbers):
    """Say the median, the ninth decile and the most of some numbers."""
    ordered = sorted(numbers)
    return f"median {median(ordered):g}, p90 {ordered[len(ordered) * 9 // 10]}, most {ordered[-1]}"


def over(measure, limit, *, but=()):
    """Return the functions above a limit, and the spread of them all."""
    measured = [
        (f"{module}.{node.name}", measure(node)) for module, node in functions() if area(module) not in but
    ]
    return {name: number for name, number in measured if number > limit}, spread(n for _, n in measured)


def test_no_function_is_longer_than_60_lines():
    long, said = over(lines_of, LONGEST_FUNCTION)

    assert not long, f"lines of functions: {said}"


def test_the_usual_function_is_about_a_dozen_lines():
    _, said = over(lines_of, LONGEST_FUNCTION)
    numbers = sorted(lines_of(node) for _, node in functions())

    assert median(numbers) <= 12, f"lines of functions: {said}"
    assert numbers[len(numbers) * 9 // 10] <= 35, f"lines of functions: {said}"


def test_no_function_has_more_than_6_parameters():
    wide, said = over(parameters, MOST_PARAMETERS, but=("cli",))

    assert not wide, f"parameters of functions: {said}"


def test_no_function_is_nested_deeper_than_3():
    deep, said = over(depth, DEEPEST)

    assert not deep, f"nesting of functions: {said}"


def test_no_module_is_longer_than_400_lines():
    lengths = {
        _shown(path): len(path.read_text(encoding="utf-8").splitlines()) for path in PACKAGE.rglob("*.py")
    }

    assert {name: n for name, n in lengths.items() if n > LONGEST_MODULE} == {}, spread(lengths.values())


def _shown(path):
    return Path(path).relative_to(PACKAGE).as_posix()


def test_the_measure_of_depth_counts_nested_statements():
    lines = ["def f():", " for a in b:", "  if a: pass", "  elif b:", "   while c: pass", "  else: pass"]
    code = "\n".join(lines)

    assert depth(ast.parse(code).body[0]) == 3


def test_the_measure_of_parameters_leaves_self_out():
    assert parameters(ast.parse("def f(self, a, /, b, *c, d, **e): pass").body[0]) == 5
