#!/usr/bin/env bash
# The one walk through the real window, under Xvfb: what only a real one has. A screen that is painted, the clipboard, a drag with a pointer,
# keys pressed while it hangs, the second window, rest without processor time, closing by its frame, and the power going. Everything else is
# asked of the window without a screen (src/app/tests).
# usage: walk.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
binary=$(realpath "$1")
mkdir -p "$2"
shots=$(realpath "$2")
home=$(mktemp -d)
shop=$home/posywright/shop
# The middle of the wrist, in a window of 1366 x 740: the one place that is known here.
middle="559 296"

fail() { echo "window: $*" >&2; [ -n "${window:-}" ] && maim -i "$window" "$shots/failed.png" || true; cat "$shots/app.log" >&2; exit 1; }
end() { kill "${app:-}" "${screen:-}" 2>/dev/null || true; wait 2>/dev/null || true; rm -rf "${home%/own}"; }
trap end EXIT

mkfifo "$home/number"
Xvfb -r -displayfd 3 -screen 0 1366x768x24 -nolisten tcp 3>"$home/number" 2>"$shots/xvfb.log" &
screen=$!
read -r number <"$home/number"
export DISPLAY=:$number

start() { # [FILE]
  env -u WAYLAND_DISPLAY -u DBUS_SESSION_BUS_ADDRESS HOME="$home" XDG_DATA_HOME="$home" XDG_RUNTIME_DIR="$home" \
    LIBGL_ALWAYS_SOFTWARE=1 "$binary" "$@" >"$shots/app.log" 2>&1 &
  app=$!
  window=$(timeout 60 xdotool search --sync --onlyvisible --name '^Posywright$' | head -1)
  [ -n "$window" ] || fail "no window came up"
  xdotool windowfocus --sync "$window"
  calm
}
look() { maim -i "$window" | md5sum; }
calm() { # until the screen has been the same three times; a caret in a field blinks for ever, so not for long
  local last="" now same=0
  for _ in $(seq 12); do
    now=$(look)
    [ "$now" = "$last" ] && same=$((same + 1)) || same=0
    [ $same = 2 ] && return 0
    last=$now; sleep 0.3
  done
}
key() { for k in "$@"; do xdotool key "$k"; sleep 0.15; done; calm; }
write() { xdotool type --delay 60 "$1"; calm; }
comes() { # WHAT EXPECTED COMMAND...: waits until a command says what is expected
  local what=$1 wanted=$2 found=; shift 2
  for _ in $(seq 60); do found=$("$@" || true); [ "$found" = "$wanted" ] && { echo "ok  $what: $found"; return 0; }; sleep 0.3; done
  fail "$what: expected $wanted, found $found"
}
expect() { [ "$2" = "$3" ] || fail "$1: expected $3, found $2"; echo "ok  $1: $2"; }
close() { python3 "$here/close.py" "$window"; } # as the window's frame does
ended() {
  for _ in $(seq 60); do kill -0 "$app" 2>/dev/null || { window=; wait "$app" || fail "it ended with $?"; return 0; }; sleep 0.1; done
  fail "it did not close"
}

echo "-- the first start: Enter begins with the sample shop, and a piece is painted"
start
key Return
comes "the showpiece is laid out" yes sh -c "[ -f '$shop/orders/09-showpiece.ron' ] && echo yes"
calm
maim -i "$window" "$shots/1-first.png"
colours=$(identify -format '%k' "$shots/1-first.png")
[ "$colours" -gt 2000 ] || fail "the screen is blank: $colours colours"
echo "ok  the screen is not blank: $colours colours"
close; ended

echo "-- a drag with a real pointer moves a bloom; one step back, and forward"
one=$shop/orders/one.ron
printf '(version: 1, wearer: "One", wrist: (side: left, girth: 150, measured: tape), piece: (oval: (length: 90, width: 54), parts: [
  (id: 1, stock: "spray-rose", colour: "white", at: (0, 0))]))' >"$one"
at() { tr -d ' \n' <"$one" | grep -o 'at:([^)]*)' | head -1; }
start "$one"
set -- $middle
xdotool mousemove --window "$window" "$1" "$2"; sleep 0.2; xdotool mousedown 1; sleep 0.2
for step in 10 20 30 40 50 60; do xdotool mousemove --window "$window" "$1" $(($2 - step)); sleep 0.08; done
xdotool mouseup 1
key ctrl+s
moved=$(at)
[ "$moved" != "at:(0,0)" ] || fail "the drag did not move it"
echo "ok  the drag moved it: $moved"
key ctrl+z ctrl+s
comes "one step back" "at:(0,0)" at
key ctrl+y ctrl+s
comes "and forward" "$moved" at

echo "-- words go to the clipboard and come from it"
if command -v xclip >/dev/null; then
  key w ctrl+a; write "Zoe and Mina"; key ctrl+a ctrl+c
  comes "copied" "Zoe and Mina" xclip -selection clipboard -o
  printf 'Philippa' | xclip -selection clipboard -i >/dev/null 2>&1
  key ctrl+a ctrl+v ctrl+s
  grep -q 'wearer: "Philippa"' "$one" || fail "what was pasted was not saved: $(head -4 "$one")"
  echo "ok  pasted and saved"
  key Escape Escape
  convert -size 480x640 gradient:'#8b1427'-'#a02038' "$home/dress.png"
  xclip -selection clipboard -t image/png -i "$home/dress.png" >/dev/null 2>&1
  key d; before=$(look); key ctrl+v
  [ "$(look)" != "$before" ] || fail "the photo that was pasted is not shown"
  echo "ok  a photo was pasted"
  key Escape Escape
else
  fail "there is no xclip"
fi

echo "-- keys pressed while the program hangs all count"
before=$(look)
key F6
[ "$(look)" != "$before" ] || fail "F6 changes nothing"
kill -STOP "$app"
for _ in 1 2 3; do xdotool key F6; done # round to the usual eyes again
kill -CONT "$app"
comes "the usual eyes again" "$before" look

echo "-- at rest it uses no processor time"
ticks() { awk '{print $14 + $15}' "/proc/$app/stat"; }
sleep 1; from=$(ticks); sleep 3; to=$(ticks)
[ $((to - from)) -le 6 ] || fail "$((to - from)) ticks of 10 ms in 3 s"
echo "ok  ticks of 10 ms in 3 s: $((to - from))"

echo "-- a window that becomes tiny, and large again"
xdotool windowsize "$window" 420 320; sleep 0.8
xdotool windowsize "$window" 1366 740; calm
kill -0 "$app" 2>/dev/null || fail "a tiny window ended it"

echo "-- the second window opens, shuts, and is remembered"
second() { xdotool search --onlyvisible --name 'your piece' 2>/dev/null | wc -l; }
expect "second windows at first" "$(second)" 0
xdotool key F4; comes "opened" 1 second
sleep 2
maim -i "$(xdotool search --onlyvisible --name 'your piece' | head -1)" "$shots/2-second.png"
colours=$(identify -format '%k' "$shots/2-second.png")
[ "$colours" -gt 500 ] || fail "the second window is blank: $colours colours"
xdotool windowfocus --sync "$window"
xdotool key F4; comes "shut" 0 second
xdotool key F4; comes "opened again" 1 second
xdotool windowfocus --sync "$window"
close; ended
start "$one"
comes "remembered" 1 second
xdotool windowfocus --sync "$window"
xdotool key F4; sleep 1; xdotool key F4; comes "shown, then shut" 0 second

echo "-- closing by the window's frame asks about what is not saved; staying and leaving both work"
key n Up
close; sleep 1
kill -0 "$app" 2>/dev/null || fail "it closed without asking"
key Escape
kill -0 "$app" 2>/dev/null || fail "staying closed it"
key ctrl+z ctrl+s
close; ended

echo "-- the power goes: what was not saved is on the disk, is offered and taken up"
copies() { find "$shop/recovery" -name '*.ron' | wc -l; }
expect "copies while all is saved" "$(copies)" 0
before=$(cat "$one")
start "$one"
key n Up Up Up
sleep 11
kill -9 "$app"; wait "$app" 2>/dev/null || true
expect "copies of what was not saved" "$(copies)" 1
[ "$(cat "$one")" = "$before" ] || fail "what was saved is no longer as it was"
copy=$(echo "$shop"/recovery/*.ron)
lost=$("$binary" picture "$copy" --to "$home/copy.svg" 2>&1) || fail "the copy cannot be read: $lost"
moved=$(tr -d ' \n' <"$copy" | grep -o 'at:([^)]*)' | head -1)
[ "$moved" != "$(at)" ] || fail "the copy does not hold the move"
start
key Return # the offer has the keyboard
key ctrl+s
comes "saved after it was taken up" "$moved" at
close; ended
expect "copies once it is saved" "$(copies)" 0
echo "-- a shop of one's own: three questions, a bloom, its quote through a stand-in printer; the sum has the comma of the shop"
home=$home/own; mkdir -p "$home/bin" "$home/printed"; shop=$home/posywright/shop
printf '#!/bin/sh\nfor file in "$@"; do if [ -f "$file" ]; then cp "$file" "%s/printed/"; fi; done\n' "$home" >"$home/bin/lp"
chmod +x "$home/bin/lp"
PATH="$home/bin:$PATH" start
key Tab Return; write "Fern Quill"; key Tab; write "555 0199"
key Tab Tab Tab Return Tab Tab Tab Tab Tab Tab Tab Tab Return # the euro, and start
comes "the shop says its name" yes sh -c "grep -q 'Fern Quill' '$shop/shop.ron' && grep -q 'comma' '$shop/shop.ron' && echo yes"
key b 1 Return Escape Escape ctrl+s F9; sleep 3
maim -i "$window" "$shots/3-papers.png"
key p
comes "printed" 1 sh -c "ls '$home/printed' | grep -c quote-slip.pdf"
if command -v pdftotext >/dev/null; then
  pdftotext "$home"/printed/*quote-slip.pdf - | grep -q 'Fern Quill' || fail "the name is not on the quote"
  pdftotext "$home"/printed/*quote-slip.pdf - | grep -Eq '[0-9]+,[0-9]{2}.€' || fail "no sum with a comma on the quote"
  echo "ok  name and sum stand on the printed quote"
fi
close; ended
echo "window: the walk is done"
