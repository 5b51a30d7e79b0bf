"""Every sentence an error or a refusal can say, found in the source, and which of them a run has said.

    ./tests/run --messages        fails at its end where one was never said

A message is a text in the source that ends up as the `sentence` or `hint` of a
problem: given to a function that takes one, returned by a function whose answer
is given to one, or one branch of a choice between several.  `watch` imports the
package with a note beside each of these texts, which costs no time worth naming.
"""

import ast
import builtins
import importlib.machinery
import re
import sys
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from tests.sourcefiles import PACKAGE

_BEGINNINGS = frozenset({"sentence", "sentences", "hint"})
"""Parameters of these names take messages wherever they stand; others come to it by being handed on."""
_WORDS = re.compile(r"[^\W\d].*\s\S|\S\s.*[^\W\d]")
_GATHERING = frozenset({"tuple", "list", "sorted", "next"})
_JOINT = re.compile(r"([\"'])\s*\n\s*f?\1")
"""Where a text of a test goes on in the next line."""
_NOTE = "_message_said"
_HOLDING = (ast.Subscript, ast.Starred, ast.NamedExpr, ast.FormattedValue, ast.YieldFrom, ast.Yield)
_FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


@dataclass(frozen=True, kw_only=True, order=True)
class Message:
    """One text in the source; `standing` outside every function, so that importing alone evaluates it."""

    file: str
    line: int
    column: int
    text: str = field(compare=False)
    standing: bool = False

    @property
    def words(self):
        """The longest part of its text without a gap."""
        node = ast.parse(self.text, mode="eval").body
        texts = [one.value for one in ast.walk(node) if isinstance(one, ast.Constant)]
        return max((part for text in texts if isinstance(text, str) for part in text.split("{}")), key=len)

    def __str__(self):
        """Return its place and its words."""
        return f"{self.file}:{self.line}: {self.text}"


@dataclass(kw_only=True)
class Function:
    """A function of the package, and which of its parameters take messages."""

    file: str
    node: ast.AST
    parameters: list
    taking: set


class Search:
    """The messages of some modules; `leaves` holds the nodes of their texts."""

    def __init__(self, trees):
        """Find them; a function handed a message makes its callers' texts messages, and so on."""
        self.trees = trees
        self.functions = {}
        self.constants = {file: _constants(tree) for file, tree in trees.items()}
        self.leaves = {}
        self.followed = set()
        self.of_node = {}
        for file, tree in trees.items():
            self._gather(file, tree)
        before = None
        while before != (before := self._known()):
            self.followed = set()
            for file, tree in trees.items():
                self._look(file, tree, None)

    def messages(self):
        """Return every message once, in the order of the source."""
        return sorted(
            Message(
                file=file,
                line=leaf.lineno,
                column=leaf.col_offset,
                text=ast.unparse(leaf),
                standing=standing,
            )
            for leaf, (file, standing) in self.leaves.items()
        )

    def _known(self):
        """Return how much is known: when it grows no more, all is found."""
        taking = sum(len(one.taking) for every in self.functions.values() for one in every)
        return taking, len(self.leaves)

    def _gather(self, file, tree):
        """Note every function under its name; a class under its own name by its `__init__`."""
        methods = set()
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                for inner in (one for one in node.body if isinstance(one, _FUNCTIONS)):
                    methods.add(inner)
                    self._note(file, inner, node.name if inner.name == "__init__" else inner.name, bound=True)
        for node in ast.walk(tree):
            if isinstance(node, _FUNCTIONS) and node not in methods:
                self._note(file, node, node.name, bound=False)

    def _note(self, file, node, name, *, bound):
        positional = [argument.arg for argument in (*node.args.posonlyargs, *node.args.args)]
        static = any(getattr(one, "id", "") == "staticmethod" for one in node.decorator_list)
        named = [argument.arg for argument in node.args.kwonlyargs]
        parameters = positional[1:] if bound and not static else positional
        taking = {name for name in (*parameters, *named) if name in _BEGINNINGS}
        known = Function(file=file, node=node, parameters=parameters, taking=taking)
        self.functions.setdefault(name, []).append(known)
        self.of_node[node] = known

    def _look(self, file, node, inside):
        """Follow every message handed to a call below a node; `inside` is the function it stands in."""
        for child in ast.iter_child_nodes(node):
            if isinstance(child, _FUNCTIONS):
                self._look(file, child, child)
                continue
            if isinstance(child, ast.Call):
                for value in self._handed(file, child):
                    self._follow(file, value, inside)
            self._look(file, child, inside)

    def _named(self, file, name):
        """Return the functions a name may mean: a private one only in its own module."""
        return [one for one in self.functions.get(name, ()) if one.file == file or name[0] != "_"]

    def _handed(self, file, call):
        """Return the arguments of a call that are messages."""
        keywords = {one.arg: one.value for one in call.keywords if one.arg}
        found = [value for name, value in keywords.items() if name in _BEGINNINGS]
        for known in self._named(file, _name(call.func)):
            found += [value for name, value in keywords.items() if name in known.taking]
            found += [
                value
                for name, value in zip(known.parameters, call.args, strict=False)
                if name in known.taking and not isinstance(value, ast.Starred)
            ]
        return found

    def _follow(self, file, node, inside):
        """Note the texts an expression can be."""
        if node is None or node in self.followed:
            return
        self.followed.add(node)
        match node:
            case ast.Constant(value=str(text)) if _is_message(text):
                self.leaves[node] = file, inside is None
            case ast.JoinedStr():
                self._note_gaps(file, node, inside)
            case ast.Name(id=name):
                self._follow_name(file, name, inside)
            case ast.Call():
                self._follow_call(file, node, inside)
        self._each(file, _choices(node), inside)

    def _each(self, file, nodes, inside):
        for node in nodes:
            self._follow(file, node, inside)

    def _note_gaps(self, file, node, inside):
        """Note a text with gaps."""
        said = [part.value if isinstance(part, ast.Constant) else "0" for part in node.values]
        if _is_message("".join(said)):
            self.leaves[node] = file, inside is None

    def _follow_name(self, file, name, inside):
        """Follow a name to what it was given, a parameter to the callers of its function."""
        if inside is None or name not in _locals(inside):
            self._follow_standing(file, name)
            return
        if name in _parameters(inside):
            self.of_node[inside].taking.add(name)
        for value in _bindings(inside, name):
            self._follow(file, value, inside)

    def _follow_standing(self, file, name):
        """Follow the name of what stands in a module, this one or the one it is imported from."""
        for other in [file] if name in self.constants[file] else self.constants:
            for value in self.constants[other].get(name, ()):
                self._follow(other, value, None)

    def _follow_call(self, file, call, inside):
        """Follow a call of our own to what it returns; of `join` and the like to its arguments."""
        if _name(call.func) in ("items", "values"):
            self._follow(file, call.func.value, inside)
        joins = isinstance(call.func, ast.Attribute) and isinstance(call.func.value, ast.Constant)
        if joins or _name(call.func) in _GATHERING:
            self._each(file, call.args, inside)
        for name in self._called(file, call.func, inside):
            for known in self._named(file, name):
                for value in _answers(known.node):
                    self._follow(known.file, value, known.node)

    def _called(self, file, function, inside):
        """Return the names a call may mean: its own, or those of the table its name goes through."""
        name = _name(function)
        if name in self.functions or inside is None:
            return [name]
        tables = [value.id for value in _bindings(inside, name) if isinstance(value, ast.Name)]
        return [_name(one) for table in tables for one in self.constants[file].get(table, ())]


def _choices(node):
    """Return the expressions whose texts are those of an expression, or stand in it."""
    match node:
        case ast.IfExp(body=one, orelse=other) | ast.BinOp(left=one, right=other):
            return [one, other]
        case (
            ast.BoolOp(values=several)
            | ast.Tuple(elts=several)
            | ast.List(elts=several)
            | ast.Set(elts=several)
        ):
            return several
        case ast.JoinedStr(values=several):
            return [part for part in several if isinstance(part, ast.FormattedValue)]
        case ast.GeneratorExp(elt=one) | ast.ListComp(elt=one) | ast.SetComp(elt=one):
            return [one]
    return [node.value] if isinstance(node, _HOLDING) else []


def _is_message(text):
    """Tell whether a text is several words; a single one is the name of something in a message."""
    return _WORDS.search(text) is not None and not text.startswith("<")


def _constants(tree):
    """Return what the names of a module stand for: one expression, or those of a table."""
    found = {}
    for node in tree.body:
        target = node.targets[0] if isinstance(node, ast.Assign) else getattr(node, "target", None)
        value = getattr(node, "value", None)
        if isinstance(value, ast.Call) and _name(value.func) == "MappingProxyType":
            value = value.args[0]
        if isinstance(target, ast.Name) and value:
            found[target.id] = value.values if isinstance(value, ast.Dict) else _choices(value) or [value]
    return found


def _name(function):
    """Return the last name of what is called."""
    return getattr(function, "id", None) or getattr(function, "attr", "")


def _parameters(node):
    """Return the names of a function's parameters."""
    arguments = node.args
    return [one.arg for one in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs)]


@cache
def _locals(node):
    """Return the names a function gives something: its parameters, and what it stores."""
    stored = [one.id for one in _own(node) if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)]
    return {*_parameters(node), *stored}


@cache
def _own(node):
    """Return what stands in a function, functions inside it left out."""
    waiting, found = [node], []
    while waiting:
        inner = [one for one in ast.iter_child_nodes(waiting.pop()) if not isinstance(one, _FUNCTIONS)]
        found += inner
        waiting += inner
    return found


def _answers(node):
    """Return what a function returns and yields."""
    return [
        one.value
        for one in _own(node)
        if isinstance(one, ast.Return | ast.Yield | ast.YieldFrom) and one.value
    ]


def _bindings(node, name):
    """Return what a local name is given: by an assignment, a loop or an addition."""
    found = []
    for one in _own(node):
        if isinstance(one, ast.Assign):
            found += [_part(target, one.value, name) for target in one.targets]
        elif isinstance(one, ast.AnnAssign | ast.AugAssign | ast.NamedExpr):
            found.append(_part(one.target, one.value, name))
        elif isinstance(one, ast.For | ast.comprehension):
            found.append(_part(one.target, one.iter, name))
        elif isinstance(one, ast.Call) and _is_addition(one, name):
            found += one.args
    return [value for value in found if value is not None]


def _is_addition(call, name):
    """Tell whether a call puts something into the list of that name."""
    function = call.func
    adds = isinstance(function, ast.Attribute) and function.attr in ("append", "extend")
    return adds and getattr(function.value, "id", "") == name


def _part(target, value, name):
    """Return the value that comes to a name, None where the target has not that name."""
    if isinstance(target, ast.Name):
        return value if target.id == name else None
    if not isinstance(target, ast.Tuple):
        return None
    for place, one in enumerate(target.elts):
        if any(isinstance(inner, ast.Name) and inner.id == name for inner in ast.walk(one)):
            whole = isinstance(value, ast.Tuple) and len(value.elts) == len(target.elts)
            return value.elts[place] if whole else value
    return None


class _Noting(ast.NodeTransformer):
    """Puts a note beside every message: the text is handed through a function that remembers it."""

    def __init__(self, wanted):
        self.wanted = wanted

    def visit_FormattedValue(self, node):
        node.value = self.visit(node.value)
        return node

    def generic_visit(self, node):
        node = super().generic_visit(node)
        sign = getattr(node, "lineno", 0), getattr(node, "col_offset", 0), type(node).__name__
        message = self.wanted.get(sign)
        if message is None:
            return node
        call = ast.Call(
            func=ast.Name(id=_NOTE, ctx=ast.Load()), args=[ast.Constant(message), node], keywords=[]
        )
        return ast.copy_location(call, node)


class _Loader(importlib.machinery.SourceFileLoader):
    """Compiles a module with its notes; never from a cache."""

    wanted: dict

    def get_code(self, fullname):
        """Return the code of the module, from its source."""
        del fullname
        data = self.get_data(self.path)
        tree = _Noting(self.wanted).visit(ast.parse(data))
        return compile(ast.fix_missing_locations(tree), self.path, "exec", dont_inherit=True)


class Watch:
    """Which messages were said while `open`."""

    def __init__(self):
        """Find the messages and let the package be imported with notes."""
        trees = {
            path.relative_to(PACKAGE.parent).as_posix(): ast.parse(path.read_bytes())
            for path in sorted(PACKAGE.rglob("*.py"))
        }
        search = Search(trees)
        self.every = search.messages()
        numbers = {(one.file, one.line, one.column): number for number, one in enumerate(self.every)}
        self.wanted = {file: {} for file in trees}
        for leaf, (file, standing) in search.leaves.items():
            if standing:
                continue
            sign = leaf.lineno, leaf.col_offset, type(leaf).__name__
            self.wanted[file][sign] = numbers[file, leaf.lineno, leaf.col_offset]
        self.said = set()
        self.open = False

    def begin(self):
        """Import the package with notes from here on.  It must not have been imported before."""
        assert not any(name.split(".")[0] == PACKAGE.name for name in sys.modules), "imported already"
        setattr(builtins, _NOTE, self._note)
        sys.meta_path.insert(0, self)

    def _note(self, number, text):
        if self.open:
            self.said.add(number)
        return text

    def find_spec(self, fullname, path=None, target=None):
        """Find a module of the package, as the import system asks for it."""
        if fullname.split(".")[0] != PACKAGE.name:
            return None
        spec = importlib.machinery.PathFinder.find_spec(fullname, path, target)
        if spec is None or not isinstance(spec.loader, importlib.machinery.SourceFileLoader):
            return spec
        loader = _Loader(spec.loader.name, spec.loader.path)
        loader.wanted = self.wanted[loader.path.removeprefix(f"{PACKAGE.parent}/")]
        spec.loader = loader
        return spec

    def unsaid(self):
        """Return the messages nothing has said; of those outside functions, whose words no test has."""
        written = _written()
        return [
            message
            for number, message in enumerate(self.every)
            if (message.words not in written if message.standing else number not in self.said)
        ]


def _written():
    """Return what the tests, the screens they keep and the documents say."""
    tests = Path(__file__).parent
    every = [path for path in tests.rglob("*") if path.suffix in (".py", ".txt", ".json", ".md")]
    texts = [path.read_text(encoding="utf-8") for path in (*every, tests.parent / "README.md")]
    return " ".join(_JOINT.sub("", "\n".join(texts)).split())


if __name__ == "__main__":
    for message in Watch().every:
        print(message)
