"""What a general-purpose checker of JSON Schemas refuses, lessonkit refuses too."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest

from lessonkit.loading.file import load_file
from lessonkit.source.finding import Level
from tests.loading.cases import data
from tests.loading.mutants import mutants

SCHEMAS: Final = Path(__file__).parents[2] / "schema"
CHECKER: Final = shutil.which("check-jsonschema", path=Path(sys.executable).parent.as_posix())
EVERY: Final = {"activity": 13, "school": 7, "unit": 7}
"""The kinds that are compared, and each so-manieth of their damaged records."""


@pytest.mark.needs_schema_checker
@pytest.mark.skipif(CHECKER is None, reason="check-jsonschema is not installed beside this Python")
@pytest.mark.parametrize("kind", EVERY)
def test_it_refuses_nothing_that_we_take(kind: str, tmp_path: Path) -> None:
    """Over damaged records the verdicts are the same, file by file (source: check-jsonschema on the same schema)."""
    files = []
    for number, record in enumerate(mutants(data(kind), EVERY[kind])):
        files.append(tmp_path / f"{number}.yaml")
        files[-1].write_text(json.dumps(record), "utf-8")
    refused = {file.as_posix() for file in files if any(one.level is Level.ERROR for one in load_file(file).findings)}

    assert 0 < len(refused) < len(files)
    assert _refused_by_checker(kind, files) == refused


def _refused_by_checker(kind: str, files: list[Path]) -> set[str]:
    schema = SCHEMAS / f"{kind}.schema.json"
    words = [str(CHECKER), "--output-format", "json", "--schemafile", schema.as_posix()]
    done = subprocess.run([*words, *(file.as_posix() for file in files)], capture_output=True, text=True, check=False)
    told = json.loads(done.stdout)
    return {one["filename"] for one in (*told["errors"], *told["parse_errors"])}
