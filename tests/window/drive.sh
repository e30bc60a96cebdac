#!/usr/bin/env bash
# Drives the real window under Xvfb: by pointer, by keys alone, by single taps alone. Asserts on what was kept on disk,
# on what it says when it closes, and that the screen is not blank.
# usage: drive.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

# Places on the window of 1366 x 740: the middle of the sheet, buttons of the strip, the first bucket.
cx=559 cy=296
wearer="190 32" girth="480 32" undo="603 32" redo="653 32" keep="929 32"
bucket1="148 676" sprigs="294 591" leaves="367 591" blooms="134 591"

echo "-- first start: the sample shop is asked for, a piece in front"
start
shot 1-first
colours=$(identify -format '%k' "$shots/1-first.png")
holds "the screen is not blank" "$colours > 2000"
[ -f "$shop/orders/09-showpiece.ron" ] || fail "the demo shop was not laid out"

echo "-- scenario 1 by pointer: three heads in a row on a narrow wrist"
key ctrl+n
tap $girth; write 135; key Return # what stands in the field is chosen on entering it
tap $bucket1
tap $cx $cy
tap $cx $((cy - 110))
tap $cx $((cy + 110))
shot 2-three
tap $wearer; write "Mina"
key ctrl+s # with the caret still in the field
mina=$shop/orders/mina-petite.ron
[ -f "$mina" ] || fail "the order was not kept"
expect "heads" "$(report "$mina" stems "d['lines'][0]['pieces']")" 3
expect "price of the Petite" "$(report "$mina" stems "d['price_cents']")" 2000
expect "width allowed" "$(report "$mina" once-over "d['wrist']['width_limit_mm']")" 54.0
ratio=$(report "$mina" once-over "round(d['outline']['length_to_width'], 1)")
holds "long and narrow" "2.5 < $ratio < 3.4"
grep -q 'band: "elastic-small"' "$mina" || fail "the band does not fit the wrist"

echo "-- a bloom is moved by drag, undone, done again"
where() { report "$mina" once-over "round(d['outline']['length_mm'], 1)"; }
before=$(where)
drag $cx $((cy + 110)) $cx $((cy + 60))
key ctrl+s
after=$(where)
holds "the drag moved it" "$after < $before - 5"
tap $undo
key ctrl+s
expect "undone" "$(where)" "$before"
tap $redo
key ctrl+s
expect "done again" "$(where)" "$after"
tap $undo
key ctrl+s

echo "-- scenario 1 by keys alone: girth, three heads, sprig and leaves, moved by arrows"
key ctrl+n
key g; sleep 0.3; write 135; key Return
key 1 Return Return Return
key Escape s 1 Return Escape l 1 Return Return Return Return Escape Escape
key n Up Up shift+Up Escape
shot 3-keys
key ctrl+s
keyed=$shop/orders/petite.ron
[ -f "$keyed" ] || fail "the order made by keys was not kept"
expect "parts by keys" "$(report "$keyed" stems "sum(l['pieces'] - l['to_place'] for l in d['lines'])")" 8
expect "width allowed by keys" "$(report "$keyed" once-over "d['wrist']['width_limit_mm']")" 54.0
expect "price by keys" "$(report "$keyed" stems "d['price_cents']")" 2000
grep -q 'at: (7' "$keyed" || fail "arrows did not move the first bloom by 7 mm: $(grep 'at:' "$keyed" | head -1)"

echo "-- scenario 1 by single taps alone: three heads and a leaf; only the figures are typed"
tap 712 32 # New
tap $girth; write 135
tap $bucket1
tap $cx $((cy - 60))
tap $cx $((cy + 60))
tap $cx $((cy + 10))
tap $leaves; tap $bucket1
tap $((cx - 60)) $cy
shot 4-taps
tap $keep
tapped=$shop/orders/petite-2.ron
[ -f "$tapped" ] || fail "the order made by taps was not kept"
expect "width allowed by taps" "$(report "$tapped" once-over "d['wrist']['width_limit_mm']")" 54.0
expect "parts by taps" "$(report "$tapped" stems "sum(l['pieces'] - l['to_place'] for l in d['lines'])")" 4

key Escape Escape
echo "-- what is not kept is asked about; staying and leaving both work"
key n Delete
key ctrl+q
sleep 0.6
shot 5-asked
kill -0 "$app" 2>/dev/null || fail "it closed without asking"
key Escape
sleep 0.3
kill -0 "$app" 2>/dev/null || fail "staying closed it"
key ctrl+z
key ctrl+s
leave

echo "-- scenario 5: an uneven accent, evened out by key, undone"
cp "$here/five-accents.ron" "$shop/orders/five.ron"
five=$shop/orders/five.ron
widest() { report "$five" once-over "round(max(s for k in d['spread'] if k['role'] == 'accent' for s in k['steps_deg']))"; }
expect "widest step before" "$(widest)" 92
start "$five"
key o; shot 6-wedge
for _ in 1 2 3 4; do
  key Return
  key ctrl+s
  [ "$(widest)" = 72 ] && break
  key ctrl+z o
done
expect "evened out" "$(widest)" 72
key ctrl+z ctrl+s
expect "undone" "$(widest)" 92
leave
start "$five"
tap 1200 368 # the tag Even spread
tap 1090 451 # its remedy
shot 6-tapped
tap $keep
expect "evened out by taps" "$(widest)" 72
tap $undo; tap $keep
expect "undone by taps" "$(widest)" 92
leave

echo "-- scenario 6: seven heads on a Classic's oval; the remedy makes it longer, not wider; by keys and by taps"
seven=$shop/orders/seven.ron
sed 's/length: 118/length: 90/; s/width: 58/width: 54/' "$shop/orders/03-full.ron" >"$seven"
expect "fullness" "$(report "$seven" once-over "round(d['cover']['fullness'], 1)")" 1.3
oval() { report "$seven" once-over "'%g x %g' % (d['oval']['length_mm'], d['oval']['width_mm'])"; }
start "$seven"
key o Return ctrl+s
expect "the oval, by keys" "$(oval)" "112 x 54"
key ctrl+z ctrl+s
expect "undone" "$(oval)" "90 x 54"
leave
start "$seven"
tap 1200 210 # the tag Fullness
tap 1100 306 # its remedy
shot 6-longer
tap $keep
expect "the oval, by taps" "$(oval)" "112 x 54"
tap $undo; tap $keep
expect "undone by taps" "$(oval)" "90 x 54"
leave

echo "-- scenario 20: inches, and a girth that must be asked about"
start "$mina"
key g; sleep 0.3; write "6 1/4"; key Return ctrl+s # by keys
grep -q 'girth: "6 1/4"' "$mina" || fail "the girth was not kept as typed: $(grep girth "$mina")"
tap $girth; write "15.5 cm"; tap 900 500; tap $keep # by taps: the field is left by tapping elsewhere
grep -q 'girth: "15.5 cm"' "$mina" || fail "the girth was not kept as typed: $(grep girth "$mina")"
tap $girth; write "6 1/4"; key Return
key ctrl+s
grep -q 'girth: "6 1/4"' "$mina" || fail "the girth was not kept as typed: $(grep girth "$mina")"
expect "width allowed" "$(report "$mina" once-over "d['wrist']['width_limit_mm']")" 63.5
tap $girth; key ctrl+a; write "1.55"; key Return
shot 7-doubt
key ctrl+s
expect "a doubtful girth changes nothing" "$(report "$mina" once-over "d['wrist']['girth_mm']")" 158.75
key Escape

echo "-- at rest it uses no processor time"
sleep 2
ticks() { awk '{print $14 + $15}' "/proc/$app/stat"; }
from=$(ticks); sleep 3; to=$(ticks)
holds "ticks of 10 ms in 3 s" "$((to - from)) <= 6"

echo "-- a chosen bloom in a window that becomes tiny"
tap $cx $((cy - 110))
xdotool windowsize "$window" 420 320; sleep 0.8
xdotool windowsize "$window" 1366 740; sleep 0.8
kill -0 "$app" 2>/dev/null || fail "a tiny window ended it"

echo "-- a file changed by something else is not written over"
printf '\n// changed meanwhile\n' >>"$mina"
key Up ctrl+s
shot 7-changed
tail -1 "$mina" | grep -q "changed meanwhile" || fail "the changed file was written over"
key Escape ctrl+z

echo "-- client's side"
key F2; shot 8-client
key F2
leave

echo "-- a damaged file harms nothing"
printf '(version: 1, piece: (oval: (len' >"$shop/orders/half.ron"
start "$shop/orders/half.ron"
shot 9-half
leave
expect "the damaged file is as it was" "$(wc -c <"$shop/orders/half.ron")" 31

echo "-- the power goes: what was not kept is on the disk, is offered and taken up"
copies() { find "$shop/recovery" -name '*.ron' | wc -l; }
expect "copies while all is kept" "$(copies)" 0
before=$(cat "$mina")
start "$mina"
key n Up Up Up
sleep 11
kill -9 "$app"; wait "$app" 2>/dev/null || true
expect "copies of what was not kept" "$(copies)" 1
[ "$(cat "$mina")" = "$before" ] || fail "what was kept is no longer as it was"
copy=$(echo "$shop"/recovery/*.ron)
lost=$("$binary" picture "$copy" --to "$home/copy.svg" 2>&1) || fail "the copy cannot be read: $lost"
moved=$(grep 'at:' "$copy" | head -1 | grep -o 'at: ([^)]*)')
[ "$moved" != "$(grep 'at:' "$mina" | head -1 | grep -o 'at: ([^)]*)')" ] || fail "the copy does not hold the move"
start
shot 10-offered
key Return ctrl+s # the offer has the keyboard
expect "kept after it was taken up" "$(grep 'at:' "$mina" | head -1 | grep -o 'at: ([^)]*)')" "$moved"
leave
expect "copies once it is kept" "$(copies)" 0
echo "window: all walks done"
