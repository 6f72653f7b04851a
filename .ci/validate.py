"""SARIF against the schema of OASIS, JUnit against that of Jenkins, washline.toml files against the
project's own.

tests/data/sarif-schema-2.1.0.json is the JSON Schema of OASIS (oasis-tcs/sarif-spec,
Schemata/sarif-schema-2.1.0.json), as the crate serde-sarif 0.8.0 ships it.
"""

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import xmlschema
from jsonschema import Draft7Validator

WASHLINE, XSD = sys.argv[1:]
BOOKS = ["corpus/house", "corpus/mistakes.pour", "corpus/awkward", "corpus/rules"]
failed = []


def hold(what, errors):
    """Notes the first errors of `what`."""
    failed.extend(f"{what}: {list(error.path)}: {error.message[:200]}" for error in errors[:3])


def sarif():
    schema = Draft7Validator(json.loads(Path("tests/data/sarif-schema-2.1.0.json").read_text()))
    for path in BOOKS:
        hold(f"SARIF of {path}", list(schema.iter_errors(json.loads(written("sarif", path)))))


def junit():
    schema = xmlschema.XMLSchema(XSD)
    for path in BOOKS:
        errors = schema.iter_errors(written("junit", path).decode())
        failed.extend(f"JUnit of {path}: {e.path}: {e.reason}" for e in list(errors)[:3])


def written(output, path):
    """What a check of `path` prints."""
    return subprocess.run([WASHLINE, "check", "--output", output, path], capture_output=True).stdout


# What a house might write, and what it must not.
RIGHT = [
    'market = "EU"',
    'jiggers = ["3/4 oz", 25, { size = "60 ml", marks = [15] }]',
    'second-unit = "fl oz"',
    "ounce = 30",
    '[families.sour]\nsugar = [8, "none"]\nacid = { high = "1.2 g/100 ml" }',
    '[families."garden sour"]\nlike = "sour"',
    '[techniques.hard-shake]\ndilution = "45 %"',
    '[bar]\ndash = { value = 0.9, low = 0.7, high = 1.1 }',
]
WRONG = [
    'markte = "eu"',
    'market = "ue"',
    "jiggers = 25",
    '[rules]\nto-tart = "off"',
    "[families.sour]\nsugar = [8, 5000]",
    "[families.sour]\nacid = [-1, 2]",
    "[limits]\ntouches = 0",
    '[[folder]]\nmarket = "uk"',
    "[bar]\ndsh = 1",
]


def settings():
    text = Path("crates/washline-book/washline.schema.json").read_text()
    Draft7Validator.check_schema(json.loads(text))
    schema = Draft7Validator(json.loads(text))
    for path in Path("corpus").rglob("washline.toml"):
        hold(str(path), list(schema.iter_errors(tomllib.loads(path.read_text()))))
    for text in RIGHT:
        hold(text, list(schema.iter_errors(tomllib.loads(text))))
    for text in WRONG:
        if schema.is_valid(tomllib.loads(text)):
            failed.append(f"{text}: the schema lets it pass")


sarif()
junit()
settings()
print("\n".join(failed) if failed else "SARIF, JUnit and the schema of washline.toml are valid")
sys.exit(bool(failed))
