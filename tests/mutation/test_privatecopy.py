import importlib.util
import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def loaded(name):
    spec = importlib.util.spec_from_file_location(name, Path(__file__).parent / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


PRIVATE, FIGURES = loaded("privatecopy"), loaded("figures")

DECORATED = '''
class Bore:
    @property
    def radius(self):
        """Half of it."""
        return self.across / 2

    @classmethod
    def of(cls, text):
        return cls()
'''


def test_a_property_of_the_copy_is_the_same_property():
    kept = {}
    exec(PRIVATE.undecorated(DECORATED), kept)  # noqa: S102 - our own lines
    bore = kept["Bore"].of("")
    bore.across = 9

    assert bore.radius == 4.5
    assert "@property" not in PRIVATE.undecorated(DECORATED)
    assert "@classmethod" in PRIVATE.undecorated(DECORATED)


def test_the_copy_of_a_module_has_as_many_lines_so_that_places_agree():
    for path in (ROOT / "gaugestack").rglob("*.py"):
        source = path.read_text(encoding="utf-8")

        assert PRIVATE.undecorated(source).count("\n") == source.count("\n"), path


@pytest.mark.parametrize("area", PRIVATE.AREAS)
def test_an_area_names_modules_and_tests_that_exist(area):
    for pattern in PRIVATE.AREAS[area]["modules"]:
        assert list(ROOT.glob(pattern)), pattern
    for name in PRIVATE.AREAS[area]["tests"]:
        assert (ROOT / name).exists(), name


def test_a_copy_has_its_own_settings_and_the_project_keeps_its(tmp_path):
    before = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    PRIVATE.make_copy(tmp_path, "lengths")
    written = (tmp_path / "pyproject.toml").read_text(encoding="utf-8")

    assert (tmp_path / "gaugestack/lengths.py").exists()
    assert re.search(r'only_mutate = \["gaugestack/lengths.py"\]', written)
    assert (ROOT / "pyproject.toml").read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    "path", sorted((Path(__file__).parent / "survivors").glob("*.toml")), ids=lambda p: p.stem
)
def test_a_judged_survivor_has_a_kind_a_reason_and_a_function_that_exists(path):
    assert path.stem in PRIVATE.AREAS
    for entry in tomllib.loads(path.read_text(encoding="utf-8"))["survivor"]:
        assert entry["kind"] in {"equivalent", "left"}
        assert len(entry["why"]) > 10
        assert entry["changes"]
        assert _source_of(entry["function"]).exists(), entry["function"]


def _source_of(function):
    parts = function.split(".")
    paths = (ROOT.joinpath(*parts[:count]).with_suffix(".py") for count in range(len(parts), 0, -1))
    return next((path for path in paths if path.exists()), ROOT / "missing")


TABLE = '''"""Doc 1."""
STEP: int = 5
ROWS = (("0.25in", -2, True), "words", f"{STEP} mm")


def height(count=3):
    return 4 * count
'''


def test_the_figures_of_a_table_are_its_numbers_and_the_texts_that_hold_one():
    assert [figure[3] for figure in FIGURES.figures_of(TABLE)] == ["6", '"0.26in"', "3"]
