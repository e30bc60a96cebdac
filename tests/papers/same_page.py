#!/usr/bin/env python3
"""Whether two pictures of a page show the same: poppler's of the PDF (binary PGM) and the program's own (PNG, 8 bits, no
interlace). Usage: same_page.py POPPLER.pgm OURS.png. Compared are the means of blocks of 8 x 8 pixels, 0 to 255: all of them
together may differ by 1.5 on average, and one in a thousand by more than 40. Both limits are ours: two renderers never agree to
the pixel, a line of words that is missing or elsewhere changes hundreds of blocks."""
import struct
import sys
import zlib

BLOCK, MOST_MEAN, FAR, MOST_FAR = 8, 1.5, 40, 0.001


def pgm(path):
    data = open(path, "rb").read()
    magic, width, height, _ = data.split(None, 4)[:4]
    assert magic == b"P5", path
    width, height = int(width), int(height)
    return width, height, data[len(data) - width * height:]


def png(path):
    data, at, packed = open(path, "rb").read(), 8, b""
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + length]
        if kind == b"IHDR":
            width, height, depth, colour, _, _, interlace = struct.unpack(">IIBBBBB", body)
            assert depth == 8 and interlace == 0 and colour in (2, 6), path
        elif kind == b"IDAT":
            packed += body
        at += 12 + length
    n = 3 if colour == 2 else 4
    raw, line, above, grey = zlib.decompress(packed), width * n, bytearray(width * n), bytearray()
    for y in range(height):
        how, row = raw[y * (line + 1)], bytearray(raw[y * (line + 1) + 1:(y + 1) * (line + 1)])
        for i in range(line) if how else ():
            left = row[i - n] if i >= n else 0
            up, corner = above[i], above[i - n] if i >= n else 0
            if how == 1:
                guess = left
            elif how == 2:
                guess = up
            elif how == 3:
                guess = (left + up) // 2
            else:
                p = left + up - corner
                guess = min((abs(p - left), 0, left), (abs(p - up), 1, up), (abs(p - corner), 2, corner))[2]
            row[i] = (row[i] + guess) & 255
        above = row
        # The weights of Rec. ITU-R BT.601, as poppler's grey has them, in parts of 256.
        grey += bytes((77 * r + 151 * g + 28 * b) >> 8 for r, g, b in zip(row[0::n], row[1::n], row[2::n]))
    return width, height, grey


def blocks(width, height, grey):
    columns, rows = width // BLOCK, height // BLOCK
    sums = [0] * (columns * rows)
    for y in range(rows * BLOCK):
        for column in range(columns):
            start = y * width + column * BLOCK
            sums[y // BLOCK * columns + column] += sum(grey[start:start + BLOCK])
    return [s / BLOCK / BLOCK for s in sums]


theirs, ours = pgm(sys.argv[1]), png(sys.argv[2])
if abs(theirs[0] - ours[0]) > 1 or abs(theirs[1] - ours[1]) > 1:
    sys.exit(f"{sys.argv[2]} is {ours[0]} x {ours[1]} pixels, the PDF's page {theirs[0]} x {theirs[1]}")
width, height = min(theirs[0], ours[0]), min(theirs[1], ours[1])
crop = lambda w, g: b"".join(bytes(g[y * w:y * w + width]) for y in range(height))
pairs = list(zip(blocks(width, height, crop(theirs[0], theirs[2])), blocks(width, height, crop(ours[0], ours[2]))))
off = [abs(a - b) for a, b in pairs]
mean, far = sum(off) / len(off), sum(1 for d in off if d > FAR) / len(off)
print(f"{sys.argv[2].rsplit('/', 1)[-1]}: blocks differ by {mean:.2f} on average, {far:.2%} by more than {FAR}")
sys.exit(0 if mean <= MOST_MEAN and far <= MOST_FAR else "the PDF and the PNG do not show the same page")
