"""A report of every example, whole process: seconds and size. Wanted: under 3 s and 1.5 MB for the largest."""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def main() -> None:
    """Print a line for each example."""
    with tempfile.TemporaryDirectory() as folder:
        for path in sorted((ROOT / "examples").glob("*.toml")):
            target = Path(folder) / "page.html"
            command = [sys.executable, "-m", "structcheck", "report", str(path), "-o", str(target)]
            begun = time.perf_counter()
            subprocess.run(command, check=False, capture_output=True, cwd=ROOT)
            taken = time.perf_counter() - begun
            size = target.stat().st_size / 1e6 if target.exists() else float("nan")
            print(f"{path.stem:<28} {taken:5.2f} s  {size:5.2f} MB")
            target.unlink(missing_ok=True)


if __name__ == "__main__":
    main()
