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
import shutil
import statistics
import subprocess
import sys
import tempfile
import time


def spent_ms(pid):
    """Of the program's own threads, and of those that software GL has started."""
    own, drawing = 0, 0
    for task in glob.glob(f"/proc/{pid}/task/*"):
        try:
            name = open(f"{task}/comm").read()
            spent = int(open(f"{task}/schedstat").read().split()[0]) / 1e6
        except OSError:
            continue  # the thread has ended meanwhile
        if name.startswith("llvmpipe"):
            drawing += spent
        else:
            own += spent
    return own, drawing


def told(what, frames):
    frames = sorted(frames)
    print(f"{what}: median {statistics.median(frames):.1f}, 95 of 100 below "
          f"{frames[len(frames) * 95 // 100]:.1f}, largest {frames[-1]:.1f}")


def main():
    binary, given = os.path.realpath(sys.argv[1]), os.path.realpath(sys.argv[2])
    moves = int(sys.argv[3]) if len(sys.argv) > 3 else 300
    home = tempfile.mkdtemp()
    # The window writes into its shop: it gets a copy.
    shop = shutil.copytree(os.path.dirname(os.path.dirname(given)), os.path.join(home, "shop"))
    order = os.path.join(shop, os.path.basename(os.path.dirname(given)), os.path.basename(given))
    ready, tell = os.pipe()
    screen = subprocess.Popen(
        ["Xvfb", "-r", "-displayfd", str(tell), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
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
            frames.append([now - then for now, then in zip(spent_ms(app.pid), before)])
        begin, frames = frames[:10], frames[10:]
        do("mouseup 1")
        time.sleep(0.5)
        print(f"{len(frames)} moves, ms of processor time each")
        print("first ten, the drag beginning:", " ".join(f"{sum(f):.1f}" for f in begin))
        told("all threads", [sum(f) for f in frames])
        told("the program's own threads", [own for own, _ in frames])
        told("threads of software GL", [drawing for _, drawing in frames])
    finally:
        app.kill()
        screen.kill()


main()
