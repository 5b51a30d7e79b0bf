"""Write the JSON Schemas that gaugestack carries in gaugestack/schemas/.

python tests/schemas/write.py      look at the difference before you commit it
"""

import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.schemas.answers import answer_schemas
from tests.schemas.setfile import set_file_schema

SHIPPED = Path(__file__).parents[2] / "gaugestack" / "schemas"


def files():
    """Return name and text of every file."""
    schemas = {**answer_schemas(), "set-file": set_file_schema()}
    return {
        f"{name}.json": json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
        for name, schema in sorted(schemas.items())
    }


def main():
    """Write every file anew, and take away what is none of them."""
    SHIPPED.mkdir(exist_ok=True)
    texts = files()
    for path in SHIPPED.iterdir():
        if path.name not in texts:
            path.unlink()
    for name, text in texts.items():
        (SHIPPED / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
