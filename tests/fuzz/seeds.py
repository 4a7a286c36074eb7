#!/usr/bin/env python3
"""Seeds for the fuzzers from what the tree holds already: python3 tests/fuzz/seeds.py FOLDER makes FOLDER/<target>/."""
import hashlib
import json
import pathlib
import re
import sys

import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
LONGEST = 4096  # bytes; longer seeds slow the fuzzer down and teach it nothing

# Lines that must be refused, each for a reason of its own, and lines that only look as if they must.
ODD_LINES = (
    r'{"told": {"squeeze": null}}', r'{"told": {"bed_temperature": 1e3}}', r'{"told": {"squeeze": "stream", "squeeze": "?"}}',
    r'{"id": 1.5, "told": {"squeeze": "stream"}}', r'{"id": -9223372036854775808, "words": "too wet"}', r'{"told": ["squeeze"]}',
    r'{"id": 9223372036854775808, "told": {}}', r'{"id": "\u00e4\n\u202e", "words": "it smells"}', r'{"words": "a \u001b[31m"}',
    r'{"told": {"squeeze": {"is": ["stream"], "sure": "guess"}}}', r'{"told": {"squeeze": [[["stream"]]]}}', "[]", "{}", "null",
    r'{"told": {"bed_temperature": "28 to 32 \u00b0C"}, "words": " "}', r'{"told": {"rain_entry": true, "wet_end": false}}',
    r'{"told": {"squeeze": "not stream"}} {}', r'{"told": {"squeeze": "stream"}', r'{"tolled": 0, "words": "\ud83e\udeb1\ud83e"}',
    "\ufeff{\"words\": \"worms up the walls\"}\r\n \t\r\n\n{\"words\": \"and ants\"}")


def keep(folder, target, text):
    data = text.encode() if isinstance(text, str) else text
    if 0 < len(data) <= LONGEST:
        path = folder / target / hashlib.sha1(data).hexdigest()[:16]
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    folder = pathlib.Path(sys.argv[1])
    rules = "".join(path.read_text() for path in sorted((ROOT / "rules").glob("*.yaml")))
    for text in re.findall(r"when: ([^,{}\n]+)", rules)[::12]:
        keep(folder, "conditions", text.strip())
    for text in re.findall(r"measured out: (.+)", rules):
        keep(folder, "amounts", text.strip().strip("'\""))
    for path in sorted((ROOT / "tests/bad_rules").rglob("*.yaml")) + sorted((ROOT / "tests/review").glob("*.yaml")):
        keep(folder, "rule_files", path.read_bytes())
    for path in sorted((ROOT / "examples").rglob("*.yaml")):
        text = path.read_bytes()
        target = "tank_records" if text.startswith(b"tank:") or b"\ntank:" in text else "answer_files"
        if b"\nsigns:\n  " in text and b"\nsources:" in text:
            target = "rule_files"
        keep(folder, target, text)
    for path in sorted((ROOT / "tests/bad_tanks").glob("*.yaml")):
        keep(folder, "tank_records", path.read_bytes())
    cases = "".join(path.read_text() for path in sorted((ROOT / "rules/cases").glob("*.yaml")))
    told = re.findall(r"told: (\{.+\})$", cases, re.M)
    for text in told[::8]:
        keep(folder, "answer_files", "signs: " + text + "\n")
    for name in ("caller_sentences.txt", "caller_sentences_two.txt"):
        for line in (ROOT / "tests/engine" / name).read_text().split("\n")[::3]:
            if line and line[0] not in "#=~":
                keep(folder, "stories", line)
    for document in ("CALLS.md",):
        for block in re.findall(r"```yaml\n(.*?)```", (ROOT / "rules" / document).read_text(), re.S):
            keep(folder, "call_records", block)
    for document in ("TANKS.md",):
        for block in re.findall(r"```yaml\n(.*?)```", (ROOT / "rules" / document).read_text(), re.S):
            keep(folder, "tank_records", block)
    beds = [json.dumps({"id": i, "told": yaml.safe_load(text)}) for i, text in enumerate(told[::12])]
    beds += re.findall(r"^    (\{.+\})$", (ROOT / "rules/LINES.md").read_text(), re.M)
    for several in (1, 3):
        for i in range(0, len(beds), 3 * several):
            keep(folder, "json_lines", "\n".join(beds[i:i + several]) + "\n")
    for text in ODD_LINES:
        keep(folder, "json_lines", text)
    keep(folder, "json_lines", "\n".join(ODD_LINES))
    readme = (ROOT / "README.md").read_text() + (ROOT / "cli/help.hpp").read_text()
    for line in re.findall(r"lidlift (?:why|mix|log|ask) (.+)", readme):
        keep(folder, "command_lines", "\n".join(re.findall(r"'[^']*'|\"[^\"]*\"|\S+", line)).replace("'", "").replace('"', ""))
    for i, text in enumerate(told[::30]):
        keep(folder, "command_lines", "\n".join(re.sub(r"[{}]", "", part).strip().replace(": ", "=") for part in text.split(", ")))


if __name__ == "__main__":
    main()
