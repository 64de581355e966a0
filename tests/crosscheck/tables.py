"""Reads the CSV of every demo project with pandas and holds it against the JSON of the same command.

    python tests/crosscheck/tables.py path/to/hodful

`hodful measure` is written as CSV and as JSON: rows, columns and every number must be the same (CSV prints
the shortest digits that read back as the same number). `hodful export --to x.csv` must be read as it is, with
no cell that a spreadsheet would take for a formula. Exit 0 when all is well, 1 when not.
"""

import io
import json
import subprocess
import sys
import tempfile
from pathlib import Path

import pandas

ROOT = Path(__file__).resolve().parents[2]


def said(hodful, *words):
    return subprocess.run([hodful, *words], capture_output=True, check=True).stdout


def compared(hodful, path):
    """How many figures of a project are the same in both, and what is not."""
    faces = json.loads(said(hodful, "measure", str(path), "--format", "json"))["faces"]
    frame = pandas.read_csv(io.BytesIO(said(hodful, "measure", str(path), "--format", "csv")))
    wrong, count = [], 0
    # The last row sums all of them.
    total, frame = frame.iloc[-1], frame.iloc[:-1]
    if total["wall"] != "total":
        wrong.append("the last row is not the total")
    if len(frame) != len(faces):
        wrong.append(f"{len(frame)} rows and {len(faces)} faces")
    for at, face in enumerate(faces):
        for key, expected in face.items():
            found = frame.iloc[at][key]
            count += 1
            if isinstance(expected, (int, float)):
                same = float(found) == float(expected)
            else:
                same = str(found) == str(expected)
            if not same:
                wrong.append(f"face {at}, {key}: {found!r}, not {expected!r}")
    return count, wrong


def papers(hodful, path, folder):
    """Cells of the exported order list that would be formulas."""
    to = Path(folder) / f"{path.stem}.csv"
    said(hodful, "export", str(path), "--to", str(to))
    text = to.read_bytes()
    if b"\r\n" not in text or b"\n" in text.replace(b"\r\n", b""):
        return ["lines do not end as RFC 4180 has it"]
    frame = pandas.read_csv(to, header=None, dtype=str, keep_default_na=False, names=range(40))
    cells = [cell for row in frame.values for cell in row]
    if not any(cells):
        return ["nothing is in it"]
    return [f"a formula: {cell}" for cell in cells if cell[:1] in "=@+\t" and cell]


def main(hodful):
    failed = total = 0
    with tempfile.TemporaryDirectory() as folder:
        for path in sorted((ROOT / "demo-projects").glob("*.json")):
            count, wrong = compared(hodful, path)
            wrong += papers(hodful, path, folder)
            total += count
            failed += len(wrong)
            for line in wrong:
                print(f"{path.name}: {line}")
    print(f"tables: {total} figures read back by pandas, {failed} missed")
    return 1 if failed or not total else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
