#!/usr/bin/env python3
"""Small faults put into engine/, to see whether the tests notice: python3 tests/mutation/mutate.py --work FOLDER [--count 200]

The faults are drawn by a seed from every place where one can be made: a comparison turned or moved by one, a sign changed, a
constant one larger, `and` for `or`, a statement or a branch left out. The sources are copied to FOLDER and every fault is
written into the copy behind a switch (`if fault 17 is on: this, else that`), so that all of them are compiled at once; then
the tests run once for each fault, with LIDLIFT_FAULT=17. The tree itself is never touched.

A fault is caught when a test fails, the program crashes or does not end in time. First the tests of the fault's own source
are run, then, where they notice nothing, all tests that are quick. What is left is printed; a person has to say which of it
makes no difference at all.
"""
import argparse
import collections
import json
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]

# Sources, how much each weighs in the draw, and the tests that are its own (tags of Catch2).
SOURCES = {
    "engine/condition.cpp": (3, "[condition]"),
    "engine/chaining.cpp": (3, "[chaining]~[gringo]~[property]"),
    "engine/noisy_or.cpp": (3, "[weighing]"),
    "engine/weighing.cpp": (2, "[weighing]"),
    "engine/tied_sets.cpp": (4, "[tied_sets]"),
    "engine/finding_in_play.cpp": (2, "[tied_sets]"),
    "engine/bystanders.cpp": (3, "[tied_sets]"),
    "engine/ranking.cpp": (3, "[ranking]~[property]"),
    "engine/advice.cpp": (4, "[advice]~[laws]~[property]"),
    "engine/next_question.cpp": (3, "[next_question]~[property]"),
    "engine/mixture.cpp": (3, "[mixture]"),
    "engine/mixture_goals.cpp": (2, "[mixture]"),
    "engine/linear_programme.cpp": (2, "[mixture]"),
    "engine/quantity.cpp": (3, "[quantity]"),
    "engine/answers.cpp": (2, "[answers]"),
    "engine/step_amount.cpp": (2, "[amounts]"),
    "engine/capacity.cpp": (1, "[capacity]"),
    "engine/due_work.cpp": (1, "[due]"),
    "engine/red_flags.cpp": (1, "[red_flags],[interview]"),
    "engine/calendar.cpp": (1, "[calendar]"),
    "engine/tank/bay_history.cpp": (1, "[tank]~[cli]"),
    "engine/tank/contents.cpp": (2, "[tank]~[cli]"),
    "engine/tank/feed_facts.cpp": (1, "[tank]~[cli]"),
    "engine/tank/feeding.cpp": (2, "[tank]~[cli]"),
    "engine/tank/heat.cpp": (2, "[tank]~[cli]"),
    "engine/tank/heat_facts.cpp": (1, "[tank]~[cli]"),
    "engine/tank/moisture.cpp": (2, "[tank]~[cli]"),
    "engine/tank/rotting.cpp": (1, "[tank]~[cli]"),
    "engine/tank/stage.cpp": (2, "[tank]~[cli]"),
    "engine/tank/turns.cpp": (1, "[tank]~[cli]"),
    "engine/tank/worms.cpp": (1, "[tank]~[cli]"),
}

HEADER = """// Made by tests/mutation/mutate.py: which fault is on.
#pragma once
#include <cstdlib>
namespace lidlift::fault {
inline const int chosen = [] {
    const char* number = std::getenv("LIDLIFT_FAULT");
    return number ? std::atoi(number) : -1;
}();
[[nodiscard]] inline bool on(int number) { return number == chosen; }
}  // namespace lidlift::fault
"""

# A piece of code, what takes its place, and what kind of fault that is. Blanks around a sign keep templates out.
SWAPS = [
    (r" < ", " <= ", "boundary"), (r" <= ", " < ", "boundary"), (r" > ", " >= ", "boundary"), (r" >= ", " > ", "boundary"),
    (r" < ", " > ", "comparison"), (r" > ", " < ", "comparison"), (r" == ", " != ", "comparison"), (r" != ", " == ", "comparison"),
    (r" && ", " || ", "and for or"), (r" \|\| ", " && ", "or for and"),
    (r" \+ ", " - ", "sign"), (r" - ", " + ", "sign"), (r" \* ", " / ", "sign"), (r" / ", " * ", "sign"),
    (r" \+= ", " -= ", "sign"), (r" -= ", " += ", "sign"),
    (r"std::min\(", "std::max(", "least for most"), (r"std::max\(", "std::min(", "most for least"),
    (r"\btrue\b", "false", "constant"), (r"\bfalse\b", "true", "constant"),
]
NUMBER = re.compile(r"(?<![\w.\"'])(\d+)(?:\.(\d+))?(?![\w.\"'])")

# What is written behind a switch: (head, the part a fault may change, tail).
RETURN = re.compile(r"^(\s*return )([^{};]+)(;)$")
VALUE = re.compile(r"^(\s*(?:const )?(?:auto|bool|double|int|std::size_t|float) \w+ = )([^{};]+)(;)$")
STATEMENT = re.compile(r"^(\s*)((?:[\w.>()\[\]*:-]+(?:\.|->))?[\w\[\].]+(?:\(.*\)| [-+*/|&]?= .+)|\+\+\w+|continue|break)(;)$")
BRANCH = re.compile(r"^(\s*(?:\} else )?(?:if|while) \()(.*)$")


def closing(text):
    """Where the parenthesis that is open before `text` is closed, or -1."""
    depth = 1
    for i, c in enumerate(text):
        depth += (c == "(") - (c == ")")
        if depth == 0:
            return i
    return -1


def faults_in(expression):
    """(what the expression becomes, kind) for every small fault of it. Texts in quotes are left alone."""
    quoted = [m.span() for m in re.finditer(r'"(?:[^"\\]|\\.)*"|\'(?:[^\'\\]|\\.)*\'', expression)]
    outside = lambda at: not any(a <= at < b for a, b in quoted)
    for pattern, by, kind in SWAPS:
        for m in re.finditer(pattern, expression):
            if outside(m.start()):
                yield expression[: m.start()] + by + expression[m.end() :], kind
    for m in NUMBER.finditer(expression):
        if outside(m.start()):
            more = str(int(m.group(1)) + 1) + ("." + m.group(2) if m.group(2) else "")
            yield expression[: m.start()] + more + expression[m.end() :], "constant"


def faults_of(line):
    """(kind, the line with a switch in which N stands for the fault's number, the line as the fault has it)."""
    for shape in (RETURN, VALUE):
        if m := shape.match(line):
            head, value, tail = m.groups()
            for changed, kind in faults_in(value):
                yield kind, f"{head}fault::on(N) ? ({changed}) : ({value}){tail}", head + changed + tail
            return
    if m := BRANCH.match(line):
        head, rest = m.groups()
        end = closing(rest)
        if end < 0:
            return
        condition, tail = rest[:end], rest[end:]
        first = ""
        if "; " in condition:
            first, condition = condition.rsplit("; ", 1)
            first += "; "
        for changed, kind in faults_in(condition):
            yield kind, f"{head}{first}fault::on(N) ? ({changed}) : ({condition}){tail}", head + first + changed + tail
        if re.match(r"(const )?auto[*&]? \w+ = ", condition):  # a name that is declared there
            name = re.match(r"(?:const )?auto[*&]? (\w+) = ", condition).group(1)
            yield "branch left out", f"{head}{first}{condition}; !fault::on(N) && {name}{tail}", head + "false" + tail
        elif "while" not in head:
            yield "branch left out", f"{head}{first}!fault::on(N) && ({condition}){tail}", head + first + "false" + tail
            yield "branch always", f"{head}{first}fault::on(N) || ({condition}){tail}", head + first + "true" + tail
        return
    if m := STATEMENT.match(line):
        head, statement, tail = m.groups()
        if statement in ("continue", "break"):
            yield "statement left out", f"{head}if (!fault::on(N)) {statement};", head + ";"
            return
        yield "statement left out", f"{head}{{ if (!fault::on(N)) {{ {statement}; }} }}", head + ";"
        for changed, kind in faults_in(statement):
            yield kind, f"{head}{{ if (fault::on(N)) {{ {changed}; }} else {{ {statement}; }} }}", head + changed + tail


def candidates(source):
    """Every fault that can be made in a source: (line number, kind, switched line, faulty line)."""
    for number, line in enumerate((ROOT / source).read_text().split("\n"), 1):
        bare = line.strip()
        if bare.startswith(("//", "#", "static_assert", "constexpr", "using")) or "//" in line or "[&" in line:
            continue
        for kind, switched, faulty in faults_of(line):
            yield number, kind, switched, faulty


def draw(count, seed, only):
    """`count` faults, sources by weight, one a line."""
    dice = random.Random(seed)
    pools = {}
    for source in SOURCES:
        if only and not any(name in source for name in only):
            continue
        by_line = collections.defaultdict(list)
        for number, kind, switched, faulty in candidates(source):
            by_line[number].append((kind, switched, faulty))
        pools[source] = by_line
    drawn = []
    while len(drawn) < count and any(pools.values()):
        source = dice.choices(list(pools), [SOURCES[s][0] if pools[s] else 0 for s in pools])[0]
        number = dice.choice(sorted(pools[source]))
        kind, switched, faulty = dice.choice(pools[source].pop(number))
        drawn.append({"number": len(drawn), "source": source, "line": number, "kind": kind, "switched": switched,
                      "faulty": faulty.strip(), "was": (ROOT / source).read_text().split("\n")[number - 1].strip()})
    return drawn


def write_sources(tree, faults):
    """The sources of the copy with all faults in them that compile so far."""
    for source in {fault["source"] for fault in faults}:
        lines = (ROOT / source).read_text().split("\n")
        for fault in faults:
            if fault["source"] == source and fault.get("result") != "does not compile":
                lines[fault["line"] - 1] = re.sub(r"\bon\(N\)", f"on({fault['number']})", fault["switched"])
        text = '#include "engine/fault_switch.hpp"\n#line 1\n' + "\n".join(lines)
        path = tree / source
        if path.read_text() != text:
            path.write_text(text)


def build(work, faults, options):
    """Copies the tree, writes the faults into it and builds; faults that do not compile are marked."""
    tree = work / "tree"
    files = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-z"], check=True, capture_output=True, text=True).stdout
    for name in filter(None, files.split("\0")):
        target = tree / name
        if (ROOT / name).is_file() and not (target.exists() and name not in SOURCES and
                                            target.stat().st_mtime >= (ROOT / name).stat().st_mtime):
            target.parent.mkdir(parents=True, exist_ok=True)
            if name in SOURCES and target.exists():
                continue  # written below
            shutil.copy2(ROOT / name, target)
    switch = tree / "engine/fault_switch.hpp"
    if not switch.exists():
        switch.write_text(HEADER)
    for source in SOURCES:  # what an earlier draw left
        if source not in {fault["source"] for fault in faults} and (tree / source).read_text() != (ROOT / source).read_text():
            shutil.copyfile(ROOT / source, tree / source)
    if not (work / "tree/build/build.ninja").exists():
        subprocess.run(["cmake", "-S", str(tree), "-B", str(tree / "build"), "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release",
                        "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -DNDEBUG", "-DBUILD_TESTING=ON", *options], check=True,
                       stdout=subprocess.DEVNULL)
    while True:
        write_sources(tree, faults)
        made = subprocess.run(["cmake", "--build", str(tree / "build"), "--target", "lidlift_tests", "--", "-k", "0"],
                              capture_output=True, text=True)
        if made.returncode == 0:
            return
        wrong = {(m.group(1), int(m.group(2))) for m in re.finditer(r"(engine/[\w/]+\.cpp):(\d+):\d+: error", made.stdout)}
        hit = [f for f in faults if (f["source"], f["line"]) in wrong and "result" not in f]
        if not hit:
            sys.exit("the copy does not build:\n" + made.stdout[-4000:])
        for fault in hit:
            fault["result"] = "does not compile"


def mark_built(work, faults):
    """For a copy that was built before: faults that are not in its sources did not compile then."""
    there = {source: (work / "tree" / source).read_text() for source in {fault["source"] for fault in faults}}
    for fault in faults:
        if f"fault::on({fault['number']})" not in there[fault["source"]]:
            fault["result"] = "does not compile"


def run(program, selection, fault, seconds):
    """None where all tests pass; otherwise how the fault showed."""
    began = time.monotonic()
    environment = dict(os.environ, LIDLIFT_FAULT=str(fault))
    try:
        done = subprocess.run([str(program), "-a", *selection], env=environment, capture_output=True, timeout=seconds)
    except subprocess.TimeoutExpired:
        return "did not end", time.monotonic() - began
    how = None if done.returncode == 0 else "crashed" if done.returncode < 0 else "a test failed"
    return how, time.monotonic() - began


def quick_tests(program, longest):
    """Catch2's selection of all tests whose tags take at most `longest` seconds each. (By tags, since Catch2 takes seconds to
    look for hundreds of names.)"""
    clean = dict(os.environ, LIDLIFT_FAULT="-1")
    timed = subprocess.run([str(program), "-d", "yes", "~[bench]~[log_safety]~[terminal]~[faults]~[schema]"], env=clean,
                           capture_output=True, text=True, errors="replace").stdout
    seconds = {m.group(2): float(m.group(1)) for m in re.finditer(r"^(\d+\.\d+) s: (.+)$", timed, re.M)}
    listed = subprocess.run([str(program), "--list-tests"], env=clean, capture_output=True, text=True, errors="replace").stdout
    by_tag = collections.defaultdict(float)
    name = ""
    for line in listed.split("\n"):
        if line.startswith("      "):
            for tag in re.findall(r"\[[^\]]+\]", line):
                by_tag[tag] += seconds.get(name, 1000)  # not timed: left out on purpose
            name = ""
        elif line.startswith("  "):
            name = (name + " " + line.strip()).strip()
    chosen = [tag for tag, taken in by_tag.items() if taken <= longest]
    print(f"{len(chosen)} of {len(by_tag)} tags are quick", flush=True)
    return ",".join(sorted(chosen))


def main():
    options = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    options.add_argument("--work", required=True, type=pathlib.Path, help="folder for the copy, kept for the next time")
    options.add_argument("--count", type=int, default=200)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--only", action="append", help="part of a source's name")
    options.add_argument("--timeout", type=float, default=60, help="seconds for one fault's tests")
    options.add_argument("--quick", type=float, default=0.3, help="seconds that the tests of one tag may take to be run for every fault")
    options.add_argument("--minutes", type=float, default=1e9, help="ends after so long, and says how far it came")
    options.add_argument("--built", action="store_true", help="the copy was built with these faults before")
    options.add_argument("--list", action="store_true", help="only says which faults would be tried")
    options.add_argument("cmake", nargs="*", help="options for cmake, after --")
    given = options.parse_args()
    faults = draw(given.count, given.seed, given.only)
    if given.list:
        for fault in faults:
            print(f"{fault['number']}: {fault['source']}:{fault['line']}: {fault['kind']}: {fault['was']}  ->  {fault['faulty']}")
        return
    work = given.work.resolve()
    work.mkdir(parents=True, exist_ok=True)
    began = time.monotonic()
    mark_built(work, faults) if given.built else build(work, faults, given.cmake)
    print(f"built with {len(faults)} faults in {time.monotonic() - began:.0f} s", flush=True)
    program = work / "tree/build/tests/lidlift_tests"
    kept = work / "quick_tags.txt"
    if not (given.built and kept.exists()):
        kept.write_text(quick_tests(program, given.quick))
    quick = kept.read_text()
    known = work / "faults.json"
    if given.built and known.exists():  # what was tried before need not be tried again
        before = {json.dumps([f[k] for k in ("number", "source", "line", "faulty")]): f.get("result")
                  for f in json.loads(known.read_text())}
        for fault in faults:
            result = before.get(json.dumps([fault[k] for k in ("number", "source", "line", "faulty")]))
            if result and "result" not in fault:
                fault["result"] = result
    # Without a fault everything passes; otherwise nothing that follows means anything.
    for selection in [quick, *sorted({SOURCES[f["source"]][1] for f in faults})]:
        how, _ = run(program, [selection], -1, 20 * given.timeout)
        if how:
            sys.exit(f"without any fault, {selection}: {how}")
    for fault in faults:
        if "result" in fault:
            continue
        if time.monotonic() - began > 60 * given.minutes:
            break
        how, taken = run(program, [SOURCES[fault["source"]][1]], fault["number"], given.timeout)
        by = "its own tests"
        if not how:
            how, taken = run(program, [quick], fault["number"], given.timeout)
            by = "other tests"
        fault["result"] = f"caught by {by}: {how}" if how else "survived"
        print(f"{fault['number']}: {fault['source']}:{fault['line']}: {fault['result']} ({taken:.1f} s)", flush=True)
        (work / "faults.json").write_text(json.dumps(faults, indent=1))
    survivors = [f for f in faults if f.get("result") == "survived"]
    tried = sum(f.get("result", "does not compile") != "does not compile" for f in faults)
    broken = sum(f.get("result") == "does not compile" for f in faults)
    print(f"\nseed {given.seed}: {len(faults)} faults drawn, {broken} do not compile, {tried} tried, "
          f"{tried - len(survivors)} caught, {len(survivors)} survived"
          + (f" ({100 * (tried - len(survivors)) / tried:.1f} % caught)" if tried else ""))
    for fault in survivors:
        print(f"  {fault['source']}:{fault['line']}: {fault['kind']}\n    was {fault['was']}\n    now {fault['faulty']}")


if __name__ == "__main__":
    main()
