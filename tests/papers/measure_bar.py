"""Measures the check bar on a rastered template: the longest unbroken dark run of pixels in the upper fifth of the sheet.

Usage: measure_bar.py PICTURE.pgm DPI. Exit code 1 when it is not 100.0 +- 0.1 mm long.
"""

import re
import sys


def rows_of(path):
    """The rows of a binary PGM (netpbm's pgm(5)), 8 bits to a pixel."""
    with open(path, "rb") as file:
        data = file.read()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+(\d+)\s", data)
    width, height, most = (int(head.group(i)) for i in (1, 2, 3))
    assert most == 255, most
    start = head.end()
    return [data[start + y * width : start + (y + 1) * width] for y in range(height)]


def longest_dark_run(row):
    """Length of the longest run of dark pixels in a row."""
    return max((len(run) for run in re.findall(rb"[\x00-\x7f]+", row)), default=0)


rows = rows_of(sys.argv[1])
dpi = float(sys.argv[2])
upper = rows[: len(rows) // 5]
mm = max(longest_dark_run(row) for row in upper) / dpi * 25.4
print(f"papers: the check bar is {mm:.2f} mm long")
sys.exit(0 if abs(mm - 100.0) <= 0.1 else 1)
