#!/usr/bin/env python3
"""Measures how soon the first picture is there: the program beside the smallest window of its kind, turn by turn.

usage: first_picture.py BINARY ORDER.ron BARE [TIMES]

BARE is the example `bare` (`cargo build --release --example bare`). Starts an Xvfb of its own, and each program TIMES times.
A window is shown when its first frame has been painted; the time is from the start of the program to the MapNotify of its
window, as the X server tells it. Then the sheet's part of the screen is read every few milliseconds: the picture is refined
when it changes for the last time within two seconds. Nothing is decided here: it prints figures for a person.
"""
import ctypes
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import zlib

X = ctypes.CDLL("libX11.so.6")
X.XOpenDisplay.restype = ctypes.c_void_p
X.XDefaultRootWindow.restype = ctypes.c_ulong
X.XGetImage.restype = ctypes.c_void_p
MAP_NOTIFY, SUBSTRUCTURE, Z_PIXMAP, ALL_PLANES = 19, 1 << 19, 2, ctypes.c_ulong(-1)


class Event(ctypes.Structure):
    """The head of an XMapEvent, and room for every other."""
    _fields_ = [("type", ctypes.c_int), ("serial", ctypes.c_ulong), ("sent", ctypes.c_int), ("display", ctypes.c_void_p),
                ("event", ctypes.c_ulong), ("window", ctypes.c_ulong), ("rest", ctypes.c_long * 24)]


class Image(ctypes.Structure):
    """The head of an XImage."""
    _fields_ = [("width", ctypes.c_int), ("height", ctypes.c_int), ("offset", ctypes.c_int), ("format", ctypes.c_int),
                ("data", ctypes.c_void_p), ("order", ctypes.c_int), ("unit", ctypes.c_int), ("bit_order", ctypes.c_int),
                ("pad", ctypes.c_int), ("depth", ctypes.c_int), ("bytes_per_line", ctypes.c_int)]


class Screen:
    def __init__(self, number):
        self.display = ctypes.c_void_p(X.XOpenDisplay(f":{number}".encode()))
        self.root = ctypes.c_ulong(X.XDefaultRootWindow(self.display))
        X.XSelectInput(self.display, self.root, SUBSTRUCTURE)
        X.XSync(self.display, 0)

    def wait_for_window(self, until):
        """When the first window is shown."""
        event = Event()
        while time.monotonic() < until:
            if X.XPending(self.display):
                X.XNextEvent(self.display, ctypes.byref(event))
                if event.type == MAP_NOTIFY:
                    return time.monotonic()
            else:
                time.sleep(0.001)
        raise SystemExit("no window came up")

    def sheet(self):
        """A check sum of the sheet's pixels."""
        place = (self.root, 130, 70, 840, 370)
        got = X.XGetImage(self.display, *place, ALL_PLANES, Z_PIXMAP)
        image = ctypes.cast(got, ctypes.POINTER(Image)).contents
        total = zlib.crc32(ctypes.string_at(image.data, image.bytes_per_line * image.height))
        X.XDestroyImage(ctypes.c_void_p(got))
        return total


def once(screen, command, env, watched):
    """Milliseconds to the window, and from there to the last change of its sheet."""
    began = time.monotonic()
    app = subprocess.Popen(command, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        shown = screen.wait_for_window(began + 60)
        last, changed = None, shown
        while watched and time.monotonic() < shown + 2:
            now = screen.sheet()
            if now != last:
                last, changed = now, time.monotonic()
            time.sleep(0.005)
        return (shown - began) * 1000, (changed - shown) * 1000
    finally:
        app.kill()
        app.wait()
        time.sleep(0.3)


def main():
    binary, given, bare = (os.path.realpath(path) for path in sys.argv[1:4])
    times = int(sys.argv[4]) if len(sys.argv) > 4 else 15
    home = tempfile.mkdtemp()
    shop = shutil.copytree(os.path.dirname(os.path.dirname(given)), os.path.join(home, "shop"))
    order = os.path.join(shop, os.path.basename(os.path.dirname(given)), os.path.basename(given))
    ready, tell = os.pipe()
    x = subprocess.Popen(["Xvfb", "-r", "-displayfd", str(tell), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
                         pass_fds=[tell], stderr=subprocess.DEVNULL)
    number = os.read(ready, 16).decode().strip()
    env = dict(os.environ, DISPLAY=f":{number}", HOME=home, XDG_DATA_HOME=home, XDG_RUNTIME_DIR=home,
               LIBGL_ALWAYS_SOFTWARE="1")
    env.pop("WAYLAND_DISPLAY", None)
    try:
        screen = Screen(number)
        once(screen, [bare], env, False)  # warms the disk
        once(screen, [binary, order], env, False)
        ours, plain, refined = [], [], []
        for _ in range(times):
            plain.append(once(screen, [bare], env, False)[0])
            shown, fine = once(screen, [binary, order], env, True)
            ours.append(shown)
            refined.append(fine)
        middle = statistics.median
        print(f"{times} starts each, ms by the clock from start to window, in the middle (least)")
        print(f"the program with its first picture: {middle(ours):.0f} ({min(ours):.0f})")
        print(f"the smallest window: {middle(plain):.0f} ({min(plain):.0f}); ratio {middle(ours) / middle(plain):.2f}"
              f" ({min(ours) / min(plain):.2f})")
        print(f"last change of the sheet after that: {middle(refined):.0f}, largest {max(refined):.0f}")
    finally:
        x.kill()
        shutil.rmtree(home, ignore_errors=True)


main()
