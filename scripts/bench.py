"""Runs the benchmarks, each in a process of its own, and prints what they measured as one JSON document."""

from __future__ import annotations

import json
import os
import platform
import subprocess
import sys
from pathlib import Path

BENCHMARKS = Path(__file__).resolve().parent.parent / "benchmarks"


def main(names: list[str]) -> int:
    """Run the benchmarks named (all when none is) and return 1 if one failed or missed its target."""
    scripts = [path for path in sorted(BENCHMARKS.glob("*.py")) if not names or path.stem in names]
    unknown = sorted(set(names) - {path.stem for path in scripts})
    if unknown:
        print(f"There is no benchmark called {', '.join(unknown)} in benchmarks/.", file=sys.stderr)
        return 2
    results = {path.stem: measured(path) for path in scripts}
    machine = {
        "system": platform.platform(),
        "processor": platform.machine(),
        "cores": os.cpu_count(),
        "python": platform.python_version(),
        "load": os.getloadavg()[0],
    }
    print(json.dumps({"schema": "pellicle.bench/1", "machine": machine, "benchmarks": results}, indent=2))
    return int(any("failed" in result or result.get("met") is False for result in results.values()))


def measured(script: Path) -> dict[str, object]:
    """Run one benchmark and return the JSON object it prints, or what went wrong with it."""
    print(f"benchmarks/{script.name} ...", file=sys.stderr)
    run = subprocess.run([sys.executable, str(script)], capture_output=True, text=True, cwd=BENCHMARKS.parent)
    if run.returncode != 0:
        return {"failed": (run.stderr.strip() or f"status {run.returncode}").splitlines()[-1]}
    try:
        result = json.loads(run.stdout)
    except json.JSONDecodeError:
        return {"failed": "it did not print one JSON document"}
    return result if isinstance(result, dict) else {"measured": result}


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
