"""Which fields of schemas some answers have: a schema knows no field that nothing gives.

    known = fields("stack", schema)
    seen = given("stack", schema, answer)

A field is named by its owner and the path from there; the owner is a shared
definition where the path leads through one.
"""


def fields(name, schema):
    """Return every field a schema names, `name` the owner of its own."""
    return {found for owner, part in _owners(name, schema) for found in _fields(part, owner, "")}


def given(name, schema, answer):
    """Return the fields of a schema that an answer has."""
    return set(_given(schema, schema, answer, (name, "")))


def _owners(name, schema):
    """Yield a schema and each of its shared definitions with its name."""
    yield name, {key: part for key, part in schema.items() if key != "$defs"}
    yield from ((f"$defs {key}", part) for key, part in schema.get("$defs", {}).items())


def _fields(part, owner, path):
    """Yield the fields below a part, up to where it names a definition."""
    for one in (part, *part.get("anyOf", ())):
        for key, field in one.get("properties", {}).items():
            yield owner, f"{path}/{key}"
            yield from _fields(field, owner, f"{path}/{key}")
        if "items" in one:
            yield from _fields(one["items"], owner, path)


def _given(root, part, value, at):
    """Yield the fields that a value has."""
    if "$ref" in part:
        name = part["$ref"].rpartition("/")[2]
        yield from _given(root, root["$defs"][name], value, (f"$defs {name}", ""))
    for one in part.get("anyOf", ()):
        yield from _given(root, one, value, at)
    if isinstance(value, dict):
        owner, path = at
        for key in part.get("properties", {}).keys() & value.keys():
            yield owner, f"{path}/{key}"
            yield from _given(root, part["properties"][key], value[key], (owner, f"{path}/{key}"))
    if isinstance(value, list) and "items" in part:
        for item in value:
            yield from _given(root, part["items"], item, at)
