"""A YAML text as the values an editor checks: YAML 1.2, core schema, keys as texts.

The program itself never makes numbers of a file's texts; a schema sees what the
core schema makes of them.  Source: YAML 1.2.2, section 10.3.
"""

import re

import yaml

_RULES = (
    (re.compile(r"null|Null|NULL|~|"), lambda _: None),
    (re.compile(r"true|True|TRUE"), lambda _: True),
    (re.compile(r"false|False|FALSE"), lambda _: False),
    (re.compile(r"[-+]?[0-9]+"), int),
    (re.compile(r"0o[0-7]+"), lambda text: int(text, 0)),
    (re.compile(r"0x[0-9a-fA-F]+"), lambda text: int(text, 0)),
    (re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"), float),
    (re.compile(r"[-+]?\.(inf|Inf|INF)"), lambda _: float("inf")),
    (re.compile(r"\.(nan|NaN|NAN)"), lambda _: float("nan")),
)


def core_values(text):
    """Return what a YAML text says; raises yaml.YAMLError where it is none."""
    return _value(yaml.compose(text, Loader=yaml.BaseLoader))


def _value(node):
    """Return the value of a node."""
    if isinstance(node, yaml.MappingNode):
        keys = [key.value for key, _ in node.value]
        if any(not isinstance(key, str) for key in keys) or len(set(keys)) < len(keys):
            raise yaml.YAMLError("a key that is no text, or stands twice")
        return {key.value: _value(value) for key, value in node.value}
    if isinstance(node, yaml.SequenceNode):
        return [_value(item) for item in node.value]
    if node is None:
        return None
    return node.value if node.style else _plain(node.value)


def _plain(text):
    """Return the value of a plain scalar."""
    return next((made(text) for rule, made in _RULES if rule.fullmatch(text)), text)
