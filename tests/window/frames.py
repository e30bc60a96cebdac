#!/usr/bin/env python3
"""Measures what a frame costs while one bloom is dragged: processor time of all threads, software rendering included.

usage: frames.py BINARY ORDER.ron [MOVES]

Starts its own Xvfb, opens the order in a window of 1366 x 740, presses on the bloom in the middle and moves the pointer
by a few points, MOVES times, 40 ms apart, so that each move is one frame. The processor time of a frame is the growth of
/proc/PID/task/*/schedstat between two moves. Nothing is decided here: it prints figures for a person.
"""
import glob
import math
import os
import statistics
import subprocess
import sys
import tempfile
import time


def spent_ms(pid):
    total = 0
    for stat in glob.glob(f"/proc/{pid}/task/*/schedstat"):
        try:
            total += int(open(stat).read().split()[0])
        except OSError:
            pass  # the thread has ended meanwhile
    return total / 1e6


def main():
    binary, order = os.path.realpath(sys.argv[1]), os.path.realpath(sys.argv[2])
    moves = int(sys.argv[3]) if len(sys.argv) > 3 else 300
    home = tempfile.mkdtemp()
    ready, tell = os.pipe()
    screen = subprocess.Popen(
        ["Xvfb", "-displayfd", str(tell), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
        pass_fds=[tell], stderr=subprocess.DEVNULL)
    number = os.read(ready, 16).decode().strip()
    env = dict(os.environ, DISPLAY=f":{number}", HOME=home, XDG_DATA_HOME=home, XDG_RUNTIME_DIR=home,
               LIBGL_ALWAYS_SOFTWARE="1")
    env.pop("WAYLAND_DISPLAY", None)
    app = subprocess.Popen([binary, order], env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        window = subprocess.run(
            ["timeout", "60", "xdotool", "search", "--sync", "--onlyvisible", "--name", "^Posywright$"],
            env=env, capture_output=True, text=True, check=True).stdout.split()[0]
        time.sleep(2.5)
        hand = subprocess.Popen(["xdotool", "-"], env=env, stdin=subprocess.PIPE, text=True)

        def do(words):
            hand.stdin.write(words + "\n")
            hand.stdin.flush()

        x, y = 559, 296
        do(f"mousemove --window {window} {x} {y}")
        time.sleep(0.3)
        do("mousedown 1")
        time.sleep(0.3)
        frames = []
        for n in range(moves + 10):
            before = spent_ms(app.pid)
            turn = n / 30 * math.tau
            at = (x + round(60 * math.sin(turn)), y + round(50 * (1 - math.cos(turn))))
            do(f"mousemove --window {window} {at[0]} {at[1]}")
            time.sleep(0.04)
            frames.append(spent_ms(app.pid) - before)
        begin, frames = frames[:10], sorted(frames[10:])
        do("mouseup 1")
        time.sleep(0.5)
        print("first ten, the drag beginning:", " ".join(f"{f:.1f}" for f in begin))
        print(f"{len(frames)} moves, ms of processor time each: median {statistics.median(frames):.1f}, "
              f"95 of 100 below {frames[len(frames) * 95 // 100]:.1f}, largest {frames[-1]:.1f}")
    finally:
        app.kill()
        screen.kill()


main()
