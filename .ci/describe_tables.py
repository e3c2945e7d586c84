"""Writes data_public/datapackage.json from the heads of the tables: run it after adding a column or a table."""

import csv
import json
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1] / "data_public"
NUMBERS = {
    *("value", "value_min", "value_max", "unc", "solids_min", "solids_max", "certainty", "up_to_mm2_s"),
    *("limit_low", "limit_high", "m_factor", "ate", "ppm", "mg_m3", "threshold", "ingredients", "records", "values"),
    *("recorded_p10", "recorded_median", "recorded_p90", "low", "typical", "high", "log_sd", "line", "up_to_c"),
    *("volume_fraction", "mass_fraction", "temperature_c"),
    *("judged", "fitted", "rows"),
}
TEXT = {("headlines", "ingredients"), ("hint_words", "value")}  # lists of ids, words
KEYS = {
    "ingredients": "id",
    "classes": "class",
    "headlines": "headline",
    "neighbours": "part",
    "filler_words": "word",
    "function_words": "word",
    "restrictions": "restriction",
    "product_types": "product_type",
    "legal_acts": "act",
    "hazard_notes": "sign",
    "disclosure_rules": "rule",
}
OF_INGREDIENT = {"names", "properties", "unifac_groups", "supply_forms", "roles", "hazards", "exposure_limits"}
OF_CLASS = {"ingredients", "class_words", "word_forms", "fate_by_viscosity"}


def described(path: Path) -> dict[str, object]:
    """One table: its columns, its key, and what it points at."""
    with path.open(encoding="utf-8", newline="") as stream:
        head = next(csv.reader(stream))
    number = {name for name in head if name in NUMBERS and (path.stem, name) not in TEXT}
    fields = [{"name": name, "type": "number" if name in number else "string"} for name in head]
    schema: dict[str, object] = {"fields": fields, "missingValues": [""]}
    if path.stem in KEYS:
        schema["primaryKey"] = [KEYS[path.stem]]
    links = [
        {"fields": [column], "reference": {"resource": table, "fields": [key]}}
        for column, table, key, tables in (
            ("ingredient", "ingredients", "id", OF_INGREDIENT),
            ("class", "classes", "class", OF_CLASS),
        )
        if path.stem in tables
    ]
    if links:
        schema["foreignKeys"] = links
    kind = {"type": "table", "format": "csv", "mediatype": "text/csv", "encoding": "utf-8"}
    return {"name": path.stem, "path": path.name, **kind, "schema": schema}


PACKAGE = {
    "profile": "data-package",
    "name": "surface-treatment-ingredients",
    "title": "Ingredients of surface treatments: names, properties, roles, hazards and rules, each with its source",
    "licenses": [
        {
            "name": "CC0-1.0",
            "path": "https://creativecommons.org/publicdomain/zero/1.0/",
            "title": "CC0 1.0 Universal",
        }
    ],
    "resources": [described(path) for path in sorted(ROOT.glob("*.csv"))],
}
(ROOT / "datapackage.json").write_text(json.dumps(PACKAGE, indent=1) + "\n", encoding="utf-8")
