#!/usr/bin/env python3
"""Does rules/rule-files.schema.json take what the program takes, and refuse what it refuses?

    check_schema.py PROJECT PROGRAM

Needs Debian's python3-jsonschema and python3-yaml; without them it says so and ends with 77, which CTest reports as skipped.
"""
import json
import os
import re
import subprocess
import sys

try:
    import jsonschema
    import yaml
except ImportError as missing:
    print(f"SKIPPED: {missing}. Nothing was checked: install python3-jsonschema and python3-yaml.")
    sys.exit(77)

project, program = sys.argv[1], sys.argv[2]
faults = []


def fault(text):
    faults.append(text)
    print("fault:", text)


def inside(*names):
    return os.path.join(project, *names)


def read(path):
    with open(path, encoding="utf-8") as stream:
        return stream.read()


class AsTexts(yaml.BaseLoader):
    """Every scalar is a text, as lidlift sees it."""


class AsEditor(yaml.SafeLoader):
    """Scalars as YAML 1.2 has them, which is how an editor sees them: yes and no are texts, true and 3 are not."""


AsEditor.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"),
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
    ("int", r"^[-+]?[0-9]+$", list("-+0123456789")),
    ("float", r"^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$", list("-+.0123456789")),
):
    AsEditor.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(pattern), first)


def check_file_against(validator, path, loader):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in validator.iter_errors(yaml.load(read(path), loader))]


def complaints(text):
    """What the program says to a rule file by itself."""
    run = subprocess.run([program, "show", "--only-rules", "-"], input=text.encode(), capture_output=True, check=False)
    if run.returncode not in (0, 2):
        fault(f"the program ended with {run.returncode} for:\n{text}")
    return run.stderr.decode()


# ---- the schema itself

schema = json.loads(read(inside("rules", "rule-files.schema.json")))
jsonschema.Draft7Validator.check_schema(schema)
validator = jsonschema.Draft7Validator(schema)

# ---- every shipped rule file passes, read either way

shipped = sorted(inside("rules", name) for name in os.listdir(inside("rules")) if name.endswith(".yaml"))
examples = []
for folder, _, names in os.walk(inside("examples")):
    examples += [os.path.join(folder, name) for name in names if re.search(r"rules.*\.yaml$", name)]
if len(shipped) < 30 or len(examples) < 1:
    fault("too few rule files were found")
for path in shipped + sorted(examples):
    for loader in (AsTexts, AsEditor):
        for error in check_file_against(validator, path, loader)[:3]:
            fault(f"{os.path.relpath(path, project)}, {loader.__name__}: {error}")
if not check_file_against(validator, inside("examples", "lower_marlbeck_first_try.yaml"), AsTexts):
    fault("the three slips of examples/lower_marlbeck_first_try.yaml go unseen")

# ---- bad rule files: what is bad by its keys, words or shapes fails

# Bad in a way that only the program can see: YAML itself, names, conditions, sums, limits. These pass, or are no sound YAML.
only_the_program = set(read(os.path.join(os.path.dirname(__file__), "only_the_program.txt")).split())
seen = set()
bad = inside("tests", "bad_rules")
for name in sorted(os.listdir(bad)):
    stem = os.path.splitext(name)[0]
    if name.endswith(".expected"):
        continue
    paths = [os.path.join(bad, name)]
    if os.path.isdir(paths[0]):
        paths = sorted(os.path.join(bad, name, one) for one in os.listdir(paths[0]))
    seen.add(stem)
    refused = False
    for path in paths:
        try:
            refused = refused or bool(check_file_against(validator, path, AsTexts))
        except (yaml.YAMLError, UnicodeDecodeError, ValueError, TypeError, AttributeError):
            pass
    if refused and stem in only_the_program:
        fault(f"tests/bad_rules/{name} is refused by the schema: take it out of tests/schema/only_the_program.txt")
    if not refused and stem not in only_the_program:
        fault(f"tests/bad_rules/{name} passes the schema; if only the program can see what is wrong, "
              "put it into tests/schema/only_the_program.txt")
for name in sorted(only_the_program - seen):
    fault(f"tests/schema/only_the_program.txt names {name}, which is no bad rule file")

# ---- keys: for every shape of entry, the schema knows exactly the keys that the program knows

S = {"sources": ["common_practice"]}
SIGN = {"ask": "A", "topic": "t", "effort": "look", **S}
CAUSE = {"name": "N", "how common": "rare", "because": "B", "look again": "1 day", **S}
STEP = {"do": "D", "when": "now", "kind": "air", "if wrong": "harmless", **S}
ANSWERS = {"one": {"means": "m"}, "two": {"means": "m"}}
BANDS = {"low": {"below": "5"}, "high": {}}
QUANTITY = {**SIGN, "measured in": "pH", "plausible": "0 to 14", "bands": BANDS}
# (what it is, the whole file, path to the map that gets each key in turn)
SHAPES = [
    ("the file", {}, []),
    ("rule base", {"rule base": {}}, ["rule base"]),
    ("weighing", {"weighing": dict(S)}, ["weighing"]),
    ("a source", {"sources": {"a": {"title": "T", "kind": "trade", "standing": "read"}}}, ["sources", "a"]),
    ("a yes/no sign", {"signs": {"a": dict(SIGN)}}, ["signs", "a"]),
    ("an answer of a yes/no sign", {"signs": {"a": {**SIGN, "answers": {"yes": {}}}}}, ["signs", "a", "answers", "yes"]),
    ("a one-of-several sign", {"signs": {"a": {**SIGN, "answers": ANSWERS}}}, ["signs", "a"]),
    ("an answer of several", {"signs": {"a": {**SIGN, "answers": ANSWERS}}}, ["signs", "a", "answers", "one"]),
    ("a several-at-once sign", {"signs": {"a": {**SIGN, "several at once": "yes", "answers": ANSWERS}}}, ["signs", "a"]),
    ("an answer of several at once", {"signs": {"a": {**SIGN, "several at once": "yes", "answers": ANSWERS}}},
     ["signs", "a", "answers", "one"]),
    ("a quantity", {"signs": {"a": QUANTITY}}, ["signs", "a"]),
    ("a band", {"signs": {"a": QUANTITY}}, ["signs", "a", "bands", "low"]),
    ("a conclusion", {"conclusions": {"a": {"means": "m"}}}, ["conclusions", "a"]),
    ("a rule", {"rules": {"a": {"when": "b", "then": "c", "because": "B", **S}}}, ["rules", "a"]),
    ("a cause", {"causes": {"a": {**CAUSE, "signs": []}}}, ["causes", "a"]),
    ("a link", {"causes": {"a": {**CAUSE, "signs": [{"when": "b", "seen": "usually"}]}}}, ["causes", "a", "signs", 0]),
    ("a circumstance", {"causes": {"a": {**CAUSE, "made likelier by": [{"when": "b", "points": "slightly"}]}}},
     ["causes", "a", "made likelier by", 0]),
    ("a step of kind feed", {"steps": {"a": {**STEP, "kind": "feed"}}}, ["steps", "a"]),
    ("a caution", {"cautions": {"a": {"name": "N", "level": "note", "say": "S", **S}}}, ["cautions", "a"]),
    ("a one-sided clash", {"clashes": {"a": {"never": [], "when": "always", "say": "S", "because": "B", **S}}}, ["clashes", "a"]),
    ("a two-sided clash", {"clashes": {"a": {"between": ["air", "lime"], "find out": "b", "because": "B", **S}}}, ["clashes", "a"]),
]


def all_keys(node):
    """Every key that the schema speaks of."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key == "properties":
                yield from value
            yield from all_keys(value)
    elif isinstance(node, list):
        for item in node:
            yield from all_keys(item)


# The keys of the program are texts in its reader's source, so whatever it may ask for is among these.
in_the_reader = set()
for name in os.listdir(inside("engine", "reader")):
    in_the_reader |= set(re.findall(r'"([a-z][a-z ]*)"', read(inside("engine", "reader", name))))
universe = sorted(in_the_reader | set(all_keys(schema)))
if len(universe) < 100:
    fault("the keys of the reader were not found in its source")


def with_keys(whole, path, keys):
    whole = json.loads(json.dumps(whole))
    node = whole
    for step in path:
        node = node[step]
    for key in keys:
        node.setdefault(key, "x")
    return whole


def known_to_program(whole, path, keys):
    """The keys of which the program does not say that it does not know them."""
    said = complaints(json.dumps(with_keys(whole, path, keys)))  # JSON is YAML
    unknown = set(re.findall(r"unknown (?:key|section) '([^']*)'", said))
    if "further" in said.splitlines()[-1]:
        fault("the program stopped listing its complaints; ask for fewer keys at once")
    return {key for key in keys if key not in unknown}


def known_to_schema(whole, path, key):
    # A key is unknown where the map that got it is refused because of it: as an additional one, or by a `false`.
    for error in validator.iter_errors(with_keys(whole, path, [key])):
        stack = [error]
        while stack:
            one = stack.pop()
            stack += one.context or []
            where = list(one.absolute_path)
            if where == path and one.validator == "additionalProperties" and re.search(rf"'{re.escape(key)}'", one.message):
                return False
            if one.schema is False and where in (path, path + [key]):  # newer versions leave the key out of the path
                return False
    return True


# A key that turns the entry into one of another sort says nothing about this sort's keys; the sorts have shapes of their own.
turning = {"measured in", "between"}
for what, whole, path in SHAPES:
    node = whole
    for step in path:
        node = node[step]
    keys = [key for key in universe if key not in turning and key not in node]
    for begin in range(0, len(keys), 12):
        batch = keys[begin:begin + 12]
        program_knows = known_to_program(whole, path, batch)
        for key in batch:
            schema_knows = known_to_schema(whole, path, key)
            if schema_knows and key not in program_knows:
                fault(f"the schema takes the key '{key}' in {what}, the program does not")
            if not schema_knows and key in program_knows:
                fault(f"the program takes the key '{key}' in {what}, the schema does not")

# ---- the examples of FORMAT.md and TUTORIAL.md have the shape that they teach

for page in ("FORMAT.md", "TUTORIAL.md"):
    if not os.path.exists(inside("rules", page)):
        continue
    text = read(inside("rules", page))
    blocks = re.findall(r"^```yaml\n(.*?)^```", text, re.S | re.M)
    if not blocks:
        fault(f"rules/{page} shows no example")
    for block in blocks:
        try:
            content = yaml.load(block, AsTexts)
        except yaml.YAMLError as error:
            fault(f"an example of rules/{page} is no YAML: {error}")
            continue
        if not isinstance(content, dict) or not set(content) & set(schema["properties"]):
            continue  # a piece of an entry, or another kind of file
        for error in validator.iter_errors(content):
            fault(f"an example of rules/{page}: {'/'.join(map(str, error.absolute_path))}: {error.message}")

print(f"{len(shipped)} shipped files, {len(examples)} examples, {len(seen)} bad ones, {len(SHAPES)} shapes with {len(universe)} keys: "
      f"{len(faults)} faults")
sys.exit(1 if faults else 0)
