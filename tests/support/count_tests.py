"""Counts what is in meson's test log, and shows it a line a test.

    count_tests.py BUILD/meson-logs/testlog.json COUNTS

Writes `passed failed skipped` into the file COUNTS. A unit test counts for each cmocka test
in it, a script for each line `ok NAME`, `not ok NAME` or `skip NAME: why`; one that prints
neither is one test by its exit status. One that failed without saying which test did (it
crashed, a sanitizer stopped it, it ran too long) is one failure more. A log with no tests in
it is a failure."""
import json
import re
import sys

PASSED = re.compile(r"^(?:\[       OK \] |ok )(.+)$", re.MULTILINE)
FAILED = re.compile(r"^(?:\[  FAILED  \] (\w+)|not ok (.+))$", re.MULTILINE)
SKIPPED = re.compile(r"^(?:\[  SKIPPED \] (\w+)|skip (.+))$", re.MULTILINE)


def count(result):
    """Shows one test's results and gives how many passed, failed and were skipped."""
    output = result.get("stdout", "") + "\n" + result.get("stderr", "")
    good = result["result"] in ("OK", "EXPECTEDFAIL")
    passed = PASSED.findall(output)
    # A failed cmocka test is named when it fails and again in the summary.
    failed = sorted({a or b for a, b in FAILED.findall(output)})
    skipped = sorted({a or b for a, b in SKIPPED.findall(output)})
    counts = [len(passed), len(failed), len(skipped)]
    if not any(counts) and good:
        counts[0] = 1
    if not good and not failed:
        counts[1] = 1
        failed = [f"ended with {result['returncode']} ({result['result']})"]
    name = result["name"].removeprefix("becket:")
    print(f"  {name}: {counts[0]} passed, {counts[1]} failed, {counts[2]} skipped "
          f"({result['duration']:.1f} s)")
    for what in skipped:
        print(f"    skip {what}")
    for what in failed:
        print(f"    not ok {what}")
    if failed:
        lines = [line for line in output.splitlines() if not PASSED.match(line)]
        print("\n".join(f"    {line}" for line in lines[-60:]))
    return counts


def main():
    try:
        with open(sys.argv[1], encoding="utf-8") as log:
            results = [json.loads(line) for line in log if line.strip()]
    except OSError as error:
        print(f"  no tests were run: {error}")
        results = []
    counts = [count(result) for result in results] or [[0, 1, 0]]
    with open(sys.argv[2], "w", encoding="ascii") as file:
        print(*map(sum, zip(*counts)), file=file)
    return 0 if results else 1


sys.exit(main())
