#!/usr/bin/env python3
"""Do the schemas of rules/ (rule files, case files, tank records, calls, a site's file) take what the program takes, and refuse what it refuses?

    check_schema.py PROJECT PROGRAM

Needs Debian's python3-jsonschema and python3-yaml; without them it says so and ends with 77, which CTest reports as skipped.
"""
import json
import os
import re
import subprocess
import sys
import tempfile

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
    """What the schema says against a file."""
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in validator.iter_errors(yaml.load(read(path), loader))]


def complaints(text, *command):
    """What the program says to a rule file by itself, or to what `command` reads from its input or from FILE."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "file.yaml")
        with open(path, "w", encoding="utf-8") as stream:
            stream.write(text)
        if "FOLDER" in command:  # of a site, whose file it is
            os.rename(path, os.path.join(folder, "site.yaml"))
            with open(os.path.join(folder, "tank.yaml"), "w", encoding="utf-8") as stream:
                stream.write("tank: T\n")
        places = {"FILE": path, "FOLDER": folder}
        words = [places.get(word, word) for word in command or ("show", "--only-rules", "-")]
        run = subprocess.run([program, *words], input=text.encode(), capture_output=True, check=False)
    if run.returncode not in (0, 1, 2):
        fault(f"the program ended with {run.returncode} for:\n{text}")
    return run.stderr.decode()


# ---- the schemas themselves


def validator_of(name):
    schema = json.loads(read(inside("rules", name)))
    jsonschema.Draft7Validator.check_schema(schema)
    return jsonschema.Draft7Validator(schema)


validator = validator_of("rule-files.schema.json")
case_validator = validator_of("case-files.schema.json")
tank_validator = validator_of("tank-files.schema.json")
call_validator = validator_of("call-files.schema.json")
site_validator = validator_of("site-file.schema.json")
schema = validator.schema


def validator_for(path):
    """By what a file holds; none for files of answers and of other programs."""
    try:
        keys = set(yaml.load(read(path), AsTexts) or {})
    except (yaml.YAMLError, TypeError):
        return None
    if os.path.basename(path) == "site.yaml":
        return site_validator
    if "call" in keys:
        return call_validator
    if "tank" in keys:
        return tank_validator
    return case_validator if "cases" in keys else validator if keys & set(schema["properties"]) - {"signs"} else None


# ---- every shipped file of rules and cases passes, read either way

shipped = []
for top in ("rules", "examples"):
    for folder, _, names in os.walk(inside(top)):
        shipped += [os.path.join(folder, name) for name in sorted(names) if name.endswith(".yaml")]
first_tries = {path for path in shipped if path.endswith("_first_try.yaml")}  # they show slips
rule_files = case_files = tank_files = call_files = site_files = 0
for path in sorted(set(shipped) - first_tries):
    in_rules = os.path.dirname(path) == inside("rules")
    its_validator = validator_for(path) or (validator if in_rules else None)
    if its_validator is None:
        continue
    rule_files += its_validator is validator
    case_files += its_validator is case_validator
    tank_files += its_validator is tank_validator
    call_files += its_validator is call_validator
    site_files += its_validator is site_validator
    for loader in (AsTexts, AsEditor):
        for error in check_file_against(its_validator, path, loader)[:3]:
            fault(f"{os.path.relpath(path, project)}, {loader.__name__}: {error}")
if rule_files < 32:
    fault("too few rule files were found")
if call_files < 1 or site_files < 1:
    fault("the call and the site's file among the examples were not found")
if len(first_tries) < 2:
    fault("the first tries among the examples were not found")
for path in sorted(first_tries):
    if not check_file_against(validator, path, AsTexts):
        fault(f"the slips of {os.path.relpath(path, project)} go unseen")

# ---- bad rule files: what is bad by its keys, words or shapes fails

# Bad in a way that only the program can see: YAML itself, names, conditions, sums, limits. These pass, or are no sound YAML.
only_the_program = set(read(os.path.join(os.path.dirname(__file__), "only_the_program.txt")).split())
seen = set()
for folder, its_validator in (("bad_rules", validator), ("bad_cases", case_validator), ("bad_tanks", tank_validator)):
    bad = inside("tests", folder)
    for name in sorted(os.listdir(bad) if os.path.isdir(bad) else []):
        if name.endswith(".expected"):
            continue
        stem = folder + "/" + os.path.splitext(name)[0]
        paths = [os.path.join(bad, name)]
        if os.path.isdir(paths[0]):
            paths = sorted(os.path.join(bad, name, one) for one in os.listdir(paths[0]))
        seen.add(stem)
        refused = False
        for path in paths:
            try:
                refused = refused or bool(check_file_against(its_validator, path, AsTexts))
            except (yaml.YAMLError, UnicodeDecodeError, ValueError, TypeError, AttributeError):
                pass
        if refused and stem in only_the_program:
            fault(f"tests/{folder}/{name} is refused by the schema: take it out of tests/schema/only_the_program.txt")
        if not refused and stem not in only_the_program:
            fault(f"tests/{folder}/{name} passes the schema; if only the program can see what is wrong, "
                  f"put {stem} into tests/schema/only_the_program.txt")
for name in sorted(only_the_program - seen):
    if os.path.isdir(inside("tests", name.split("/")[0])):
        fault(f"tests/schema/only_the_program.txt names {name}, which is no bad file")

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
    ("what calls for a caution", {"cautions": {"a": {"name": "N", "level": "note", "say": "S", "called for by": {"words": ["b"]}, **S}}},
     ["cautions", "a", "called for by"]),
    ("an item of reviewed", {"reviewed": [{"kind": "unused_sign", "about": ["a"], "because": "B"}]}, ["reviewed", 0]),
    ("a one-sided clash", {"clashes": {"a": {"never": [], "when": "always", "say": "S", "because": "B", **S}}}, ["clashes", "a"]),
    ("a material", {"materials": {"a": {"name": "N", "role": "feed", **S}}}, ["materials", "a"]),
    *((f"the {key} of a material", {"materials": {"a": {"name": "N", "role": "feed", **S, key: {"typical": typical, "standing": "read"}}}},
       ["materials", "a", key])
      for key, typical in (("moisture", "5 %"), ("nitrogen", "1 %"), ("carbon to nitrogen", "20"), ("density", "100 kg/m3"))),
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
if os.path.exists(inside("engine", "cases.cpp")):
    in_the_reader |= set(re.findall(r'"([a-z][a-z_ ]*)"', read(inside("engine", "cases.cpp"))))
for name in ("tank_record.cpp", "call_record_reader.cpp", "site.cpp"):
    in_the_reader |= set(re.findall(r'"([a-z][a-z ]*)"', read(inside("engine", name))))
universe = sorted(in_the_reader.union(*(all_keys(one.schema) for one in (validator, case_validator, tank_validator,
                                                                      call_validator, site_validator))))
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


def known_to_program(whole, path, keys, command):
    """The keys of which the program does not say that it does not know them."""
    said = complaints(json.dumps(with_keys(whole, path, keys)), *command)  # JSON is YAML
    unknown = set(re.findall(r"unknown (?:key|section) '([^']*)'", said))
    if "further" in said.splitlines()[-1]:
        fault("the program stopped listing its complaints; ask for fewer keys at once")
    return {key for key in keys if key not in unknown}


def known_to_schema(its_validator, whole, path, key):
    # A key is unknown where the map that got it is refused because of it: as an additional one, or by a `false`.
    for error in its_validator.iter_errors(with_keys(whole, path, [key])):
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
CASE = {"story": "S", "told": {"rain_entry": "yes"}, "must say": ["K01"], "written from": "the trade", **S}
CASE_SHAPES = [
    ("a case file", {"cases": {}}, []),
    ("a case", {"cases": {"a": CASE}}, ["cases", "a"]),
    ("what was told", {"cases": {"a": {**CASE, "told": {"rain_entry": {"is": "yes"}}}}}, ["cases", "a", "told", "rain_entry"]),
]
if not os.path.exists(inside("engine", "cases.cpp")):
    CASE_SHAPES = []  # this program tries no cases yet
TANK = {"tank": "T"}
ENTRY = {"on": "2026-03-09", "did": "it"}


def tank_with(entry):
    return {**TANK, "entries": [{**ENTRY, **entry}]}


TANK_SHAPES = [
    ("a tank's record", TANK, []),
    ("the inside of a tank", {**TANK, "inside": {"length": "3 m", "width": "2 m", "height": "1 m"}}, ["inside"]),
    ("a bay", {**TANK, "bays": {"a": {}}}, ["bays", "a"]),
    ("an entry", tank_with({}), ["entries", 0]),
    ("drying", tank_with({"read": {"drying": {"wet": "3 g", "dry": "1 g"}}}), ["entries", 0, "read", "drying"]),
    ("bucket weighing", tank_with({"read": {"bucket weighing": {"full": "3 kg", "holds": "10 L"}}}), ["entries", 0, "read", "bucket weighing"]),
    ("a seed test", tank_with({"read": {"seed test": {"sprouted": "8", "root": "2 mm", "sprouted in water": "9", "root in water": "3 mm"}}}),
     ["entries", 0, "read", "seed test"]),
    ("what was seen", tank_with({"saw": {"rain_entry": {"is": "yes"}}}), ["entries", 0, "saw", "rain_entry"]),
]
CALL = {"call": {"state": "open", "begun": "2026-03-09 14:05", "rule base": "R", "version": "1"}, "course": []}


def call_with(entry):
    return {**CALL, "course": [{"when": "2026-03-09 14:06", **entry}]}


ADVISED = {"because": "said to stop", "causes": [{"cause": "a", "chance": "0.5"}], "nothing listed": "0.1", "steps": [], "cautions": []}
CALL_SHAPES = [
    ("a call record", CALL, []),
    ("the head of a call", CALL, ["call"]),
    ("own words", call_with({"words": "w"}), ["course", 0]),
    ("a question", call_with({"asked": "squeeze"}), ["course", 0]),
    ("a mark of going back", call_with({"back": "yes"}), ["course", 0]),
    ("an answer that was heard", call_with({"words": "w", "heard": [{"sign": "squeeze", "is": "stream"}]}), ["course", 0, "heard", 0]),
    ("what was advised", call_with({"advised": ADVISED}), ["course", 0, "advised"]),
    ("a cause that was advised on", call_with({"advised": ADVISED}), ["course", 0, "advised", "causes", 0]),
    ("a follow-up", call_with({"follow up": {}}), ["course", 0, "follow up"]),
    ("what was confirmed", call_with({"confirmed": {"causes": []}}), ["course", 0, "confirmed"]),
]
SITE_SHAPES = [("a site's file", {}, [])]
for its_validator, shapes, command in ((validator, SHAPES, ()), (case_validator, CASE_SHAPES, ("try", "-")),
                                       (tank_validator, TANK_SHAPES, ("log", "--tank", "FILE", "did", "it")),
                                       (call_validator, CALL_SHAPES, ("handover", "-")), (site_validator, SITE_SHAPES, ("round", "FOLDER"))):
    for what, whole, path in shapes:
        node = whole
        for step in path:
            node = node[step]
        keys = [key for key in universe if key not in turning and key not in node]
        for begin in range(0, len(keys), 12):
            batch = keys[begin:begin + 12]
            program_knows = known_to_program(whole, path, batch, command)
            for key in batch:
                schema_knows = known_to_schema(its_validator, whole, path, key)
                if schema_knows and key not in program_knows:
                    fault(f"the schema takes the key '{key}' in {what}, the program does not")
                if not schema_knows and key in program_knows:
                    fault(f"the program takes the key '{key}' in {what}, the schema does not")

# ---- the examples of the pages have the shape that they teach

for page in ("FORMAT.md", "CASES.md", "TANKS.md", "CALLS.md", "TUTORIAL.md"):
    if not os.path.exists(inside("rules", page)):
        continue
    text = read(inside("rules", page))
    blocks = re.findall(r"^```yaml\n(.*?)^```", text, re.S | re.M)
    blocks += [re.sub(r"^    ", "", block, flags=re.M) for block in re.findall(r"\n\n((?:    .*\n|\n(?=    ))+)", text)]
    examples = 0
    for block in blocks:
        try:
            content = yaml.load(block.replace("[...]", "[common_practice]"), AsTexts)
        except yaml.YAMLError:
            continue  # a listing, or a piece that shows what is wrong
        its_validator = None
        if isinstance(content, dict) and content:
            its_validator = call_validator if "call" in content else tank_validator if "tank" in content else case_validator if "cases" in content else validator if set(content) <= set(schema["properties"]) else None
        if its_validator is None:
            continue  # a piece of an entry, or another kind of example
        examples += 1
        for error in its_validator.iter_errors(content):
            fault(f"an example of rules/{page}: {'/'.join(map(str, error.absolute_path))}: {error.message}")
    if not examples:
        fault(f"rules/{page} shows no example")

print(f"{rule_files} rule files, {case_files} case files, {tank_files} tank records, {call_files} call records, {site_files} site's files, "
      f"{len(seen)} bad ones, {len(SHAPES) + len(CASE_SHAPES) + len(TANK_SHAPES) + len(CALL_SHAPES) + len(SITE_SHAPES)} shapes with {len(universe)} keys: {len(faults)} faults")
sys.exit(1 if faults else 0)
