"""The plan as a JSON file: one record a line, so that two plans can be compared line by line."""

from __future__ import annotations

import json
from typing import Any

from core.plan.contract import plan_document
from core.plan.model import Plan


def json_bytes(plan: Plan) -> bytes:
    """The plan file, UTF-8. Raises ValueError if a number of the plan is not finite: that would be a bug."""
    members = [f"  {_json(key)}: {_member(value)}" for key, value in plan_document(plan).items()]
    return ("{\n" + ",\n".join(members) + "\n}\n").encode()


def _member(value: Any) -> str:
    if not isinstance(value, list) or not value:
        return _json(value)
    return "[\n" + ",\n".join(f"    {_json(record)}" for record in value) + "\n  ]"


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
