"""The JSON Schema of the press file, for editors that complete and check while a builder types."""

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from structcheck.press.schema import PressFile
from structcheck.report.as_json import dumps

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Generator(GenerateJsonSchema):
    """Tables and lists that may be written short ("120 x 120 x 20 mm", "40 120 mm") get room for that."""

    def function_before_schema(self, schema: Any) -> JsonSchemaValue:
        made = super().function_before_schema(schema)
        options = made.get("anyOf", [made])
        if not any("$ref" in option or option.get("type") == "array" for option in options):
            return made
        short = {"type": ["string", "array"], "description": "the short form"}
        return {"anyOf": [*options, short]}


def press_schema() -> dict[str, Any]:
    """The schema, made from the description itself, so that the two cannot differ."""
    made = PressFile.model_json_schema(by_alias=True, schema_generator=_Generator)
    return {
        "$schema": DIALECT,
        **made,
        "title": "structcheck press file, schema 1",
        "description": "Quantities are texts with a unit; plain numbers are counts, factors and shares of the jack.",
    }


def press_schema_text() -> str:
    """The schema as a file."""
    return dumps(press_schema()) + "\n"
