"""The data package: describes every table as it is, and frictionless finds nothing to object to."""

import csv
import json

import pytest

from formulate.catalog.store import data_root

PACKAGE = json.loads((data_root() / "datapackage.json").read_text(encoding="utf-8"))


def test_every_table_is_described_with_its_columns():
    described = {
        resource["path"]: [field["name"] for field in resource["schema"]["fields"]] for resource in PACKAGE["resources"]
    }
    tables = {}
    for path in data_root().glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as stream:
            tables[path.name] = next(csv.reader(stream))
    assert described == tables


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", [resource["name"] for resource in PACKAGE["resources"]])
def test_frictionless_accepts_the_table(name):
    from frictionless import Package

    package = Package(str(data_root() / "datapackage.json"))
    report = package.get_resource(name).validate()
    assert report.valid, report.flatten(["rowNumber", "fieldName", "type", "note"])[:5]
