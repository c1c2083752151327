"""How long a person waits for the command line: help and a single calculator, warm, as processes of their own."""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import time
from pathlib import Path

COMMAND = Path(sys.executable).with_name("pellicle")
REPEATS = 10
JOBS = {
    "help": (["--help"], 0.3),
    "aw": (["aw", "--water", "1 kg", "--protein", "0 kg", "--solute", "salt=0.17532 kg", "--json"], 0.6),
}


def median_s(arguments: list[str]) -> tuple[float, float]:
    """Return the median and the longest of ten runs, after one that fills the caches."""
    times = []
    for _ in range(REPEATS + 1):
        began = time.perf_counter()
        subprocess.run([COMMAND, *arguments], check=True, capture_output=True)
        times.append(time.perf_counter() - began)
    return statistics.median(times[1:]), max(times[1:])


def main() -> None:
    """Measure each job and print one JSON object."""
    results: dict[str, dict[str, object]] = {}
    for name, (arguments, target) in JOBS.items():
        median, longest = median_s(arguments)
        results[name] = {
            "command": ["pellicle", *arguments],
            "median_s": round(median, 3),
            "longest_s": round(longest, 3),
            "repeats": REPEATS,
            "target_s": target,
            "met": median <= target,
        }
    print(json.dumps({"met": all(result["met"] for result in results.values()), "jobs": results}))


if __name__ == "__main__":
    main()
