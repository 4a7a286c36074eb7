#!/usr/bin/env python3
"""Small faults put into rules/, to see whether the recorded cases notice: python3 tests/mutation/mutate_rules.py PROGRAM

Drawn by a seed: a rule dropped, a comparison turned, a condition negated, a link's strength turned or dropped, two causes'
links exchanged, a step or a caution taken from a cause. Each is written into a copy of rules/, which `lidlift try
--only-rules` then reads. "noticed": a case fails that does not fail without the edit. "refused": the reader finds the fault
itself. What no case notices is listed: it shows where the case library is thin.
"""
import argparse
import json
import pathlib
import random
import re
import shutil
import subprocess
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
ENTRY = re.compile(r"^  ([a-z][a-z0-9_]*):", re.M)
TURNED = [(" above ", " below "), (" below ", " above "), (" at least ", " at most "), (" at most ", " at least "),
          (" is not ", " is "), (" is ", " is not ")]
STRENGTHS = [("seen: almost always", "seen: almost never"), ("seen: usually", "seen: rarely"),
             ("points: very strongly}", "points: very strongly against}"), ("points: strongly}", "points: strongly against}")]


def sections(text):
    """(name, begin, end) of each section of a rule file."""
    heads = [(m.group(1), m.start()) for m in re.finditer(r"^([a-z][a-z ]*):\s*$", text, re.M)]
    for i, (name, begin) in enumerate(heads):
        yield name, begin, heads[i + 1][1] if i + 1 < len(heads) else len(text)


def entries(text, wanted):
    """(id, begin, end) of each entry of the section `wanted`."""
    for name, begin, end in sections(text):
        if name != wanted:
            continue
        found = [(m.group(1), begin + m.start()) for m in ENTRY.finditer(text[begin:end])]
        for i, (entry, at) in enumerate(found):
            yield entry, at, found[i + 1][1] if i + 1 < len(found) else end


def edits(files):
    """Every edit: (what it is, {file: new text})."""
    for path, text in files.items():
        for entry, begin, end in entries(text, "rules"):
            yield f"{path}: rule {entry} dropped", {path: text[:begin] + text[end:]}
        for section, word in (("rules", "rule"), ("causes", "cause")):
            for entry, begin, end in entries(text, section):
                body = text[begin:end]
                for m in re.finditer(r"when: [^,}\n]+", body):
                    for one, other in TURNED:
                        at = m.group(0).find(one)
                        if at >= 0:
                            i = begin + m.start() + at
                            yield (f"{path}: {word} {entry}: '{m.group(0)}' turned at '{one.strip()}'",
                                   {path: text[:i] + other + text[i + len(one):]})
        for entry, begin, end in entries(text, "causes"):
            body = text[begin:end]
            for one, other in STRENGTHS:
                for m in re.finditer(re.escape(one), body):
                    i = begin + m.start()
                    line = text[text.rfind("\n", 0, i) + 1: text.find("\n", i)].strip()
                    yield f"{path}: cause {entry}: '{line}' turned", {path: text[:i] + other + text[i + len(one):]}
            for m in re.finditer(r"^      - \{when: .*\}\n", body, re.M):
                i = begin + m.start()
                yield (f"{path}: cause {entry}: link '{m.group(0).strip()}' dropped",
                       {path: text[:i] + text[begin + m.end():]})
        links = [(entry, begin, re.search(r"^    signs:\n(?:      - .*\n(?:        .*\n)*)+", text[begin:end], re.M))
                 for entry, begin, end in entries(text, "causes")]
        links = [(entry, begin + m.start(), begin + m.end()) for entry, begin, m in links if m]
        for (one, a, b), (other, c, d) in zip(links, links[1:]):
            yield (f"{path}: links of {one} and {other} exchanged",
                   {path: text[:a] + text[c:d] + text[b:c] + text[a:b] + text[d:]})


def kind_of(what):
    return ("links exchanged" if "exchanged" in what else "rule dropped" if what.endswith("dropped") and ": rule " in what
            else "link dropped" if what.endswith("dropped") else "strength turned" if re.search(r"(seen|points): .*turned", what)
            else "comparison turned")


def main():
    options = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    options.add_argument("program")
    options.add_argument("--count", type=int, default=100)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    program = pathlib.Path(given.program).resolve()
    files = {p.name: p.read_text() for p in sorted((ROOT / "rules").glob("*.yaml"))}
    by_kind = {}
    for what, changed in edits(files):
        by_kind.setdefault(kind_of(what), []).append((what, changed))
    print("edits there are: " + ", ".join(f"{len(all_of)} {kind}" for kind, all_of in sorted(by_kind.items())), flush=True)
    dice = random.Random(given.seed)
    for all_of in by_kind.values():
        dice.shuffle(all_of)
    drawn = []
    while len(drawn) < given.count and any(by_kind.values()):  # of each kind in turn
        for kind in sorted(by_kind):
            if by_kind[kind] and len(drawn) < given.count:
                drawn.append((kind, *by_kind[kind].pop()))
    counts = {}
    unnoticed = []
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder) / "rules"
        copy.mkdir()
        for name in files:
            shutil.copy(ROOT / "rules" / name, copy / name)
        cases = [str(path) for path in sorted((ROOT / "rules/cases").glob("*.yaml"))]

        def tried():
            """The cases that fail, or None where the rules are refused."""
            done = subprocess.run([str(program), "try", "--json", "--only-rules", str(copy), *cases], capture_output=True)
            if done.returncode in (0, 1):
                return set(json.loads(done.stdout)["misses"])
            if done.returncode == 2:
                return None
            raise SystemExit(f"the program crashed with {done.returncode}; the rules are in {shutil.copytree(copy, 'crashed_rules')}")

        before = tried()
        if before is None:
            raise SystemExit("without any edit the rules or the cases are refused")
        for kind, what, changed in drawn:
            for name, text in changed.items():
                (copy / name).write_text(text)
            misses = tried()
            result = "refused" if misses is None else "noticed" if misses - before else "unnoticed"
            for name in changed:
                (copy / name).write_text(files[name])
            counts.setdefault(kind, {}).setdefault(result, 0)
            counts[kind][result] += 1
            if result == "unnoticed":
                unnoticed.append(what)
                print(f"  {result}: {what}", flush=True)
    for kind in sorted(counts):
        print(f"{kind}: " + ", ".join(f"{number} {result}" for result, number in sorted(counts[kind].items())))
    total = sum(sum(by.values()) for by in counts.values())
    print(f"seed {given.seed}: {total} edits, {len(unnoticed)} that no case notices")


if __name__ == "__main__":
    main()
