"""The published size tables and surveys, and the charts of the collection that follow them."""

import csv
from pathlib import Path
from typing import Any

import yaml
from walebook.sizing.charts import Chart
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

HERE = Path(__file__).parent / "sizes"
CHARTS = Path(__file__).parents[2] / "patterns" / "_sizes"

TABLES: dict[str, dict[str, Any]] = {
    table["id"]: table
    for file in ("published-sizes.yaml", "bust-classes.yaml")
    for table in yaml.load((HERE / file).read_text(encoding="utf-8"), yaml.CSafeLoader)["tables"]
}

# The published names of the measurements, and ours.
ROWS = {
    "chest": "chest", "cb_neck_to_wrist": "neck_to_wrist",
    "back_waist_length": "back_waist_length", "back_hip_length": "back_hip_length",
    "cross_back": "cross_back", "arm_length_to_underarm": "arm_length", "upper_arm": "upper_arm",
    "armhole_depth": "armhole_depth", "waist": "waist", "hips": "hips",
}
TRADE = {"women": "cyc_woman", "men": "cyc_man", "children": "cyc_child_youth",
         "babies": "cyc_baby"}


def rows_of(table: str) -> list[dict[str, Any]]:
    """The rows of a published table, each by its columns."""
    columns = TABLES[table]["columns"]
    return [dict(zip(columns, row, strict=True)) for row in TABLES[table]["rows"]]


def chart(key: str) -> Chart:
    """A chart of the collection, which must be read without any finding."""
    text = (CHARTS / f"{key}.yaml").read_text(encoding="utf-8")
    node, problems = parse_source(text, name=f"{key}.yaml")
    assert node is not None
    found, more = read_chart(node, key=key)
    assert not [str(p) for p in problems + more]
    assert found is not None
    return found


def adults(sex: str) -> list[dict[str, float]]:
    """The people of body-dimensions.csv [cm] of one sex, "f" or "m"."""
    lines = (HERE / "body-dimensions.csv").read_text(encoding="utf-8").splitlines()
    people = csv.DictReader(line for line in lines if not line.startswith("#"))
    return [{k: float(v) for k, v in person.items() if k != "sex"}
            for person in people if person["sex"] == sex]
