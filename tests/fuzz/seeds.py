#!/usr/bin/env python3
"""Seeds for the fuzzers from what the tree holds already: python3 tests/fuzz/seeds.py FOLDER makes FOLDER/<target>/."""
import hashlib
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
LONGEST = 4096  # bytes; longer seeds slow the fuzzer down and teach it nothing


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
    readme = (ROOT / "README.md").read_text() + (ROOT / "cli/help.hpp").read_text()
    for line in re.findall(r"lidlift (?:why|mix|log|ask) (.+)", readme):
        keep(folder, "command_lines", "\n".join(re.findall(r"'[^']*'|\"[^\"]*\"|\S+", line)).replace("'", "").replace('"', ""))
    for i, text in enumerate(told[::30]):
        keep(folder, "command_lines", "\n".join(re.sub(r"[{}]", "", part).strip().replace(": ", "=") for part in text.split(", ")))


if __name__ == "__main__":
    main()
