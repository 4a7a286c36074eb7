"""Validates a JSON file against a JSON Schema with a general-purpose validator: validate_json.py SCHEMA FILE.

Ends with 0 when it fits, 1 when it does not (each reason on a line), 77 when python3-jsonschema is not installed.
"""
import json
import sys

try:
    import jsonschema
except ImportError:
    sys.exit(77)

schema_path, file_path = sys.argv[1:]
with open(schema_path, encoding="utf-8") as stream:
    schema = json.load(stream)
with open(file_path, encoding="utf-8") as stream:
    document = json.load(stream)
validator_class = jsonschema.validators.validator_for(schema)
validator_class.check_schema(schema)
errors = list(validator_class(schema).iter_errors(document))
for error in errors:
    print("/".join(str(part) for part in error.absolute_path) + ": " + error.message)
sys.exit(1 if errors else 0)
