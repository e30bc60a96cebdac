#!/usr/bin/env bash
# Walks the wearers in the real window under Xvfb, each by pointer and again by keys: a left hand, hands on wheels, a child and a smaller
# one, two mothers, inches and centimetres; and the house style. Asserts on what was kept on disk. People are invented for this walk.
# usage: wearer.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

has() { grep -q "$3" "$2" || fail "$1: no $3 in $(cat "$2")"; echo "ok  $1: $3"; }
lacks() { if grep -q "$3" "$2"; then fail "$1: $3 in $(cat "$2")"; fi; echo "ok  $1: no $3"; }
kept() { key ctrl+s; sleep 0.7; }
page() { key "$1"; sleep 1.5; } # its head gets the keyboard
tabs() { for _ in $(seq "$1"); do xdotool key Tab; sleep 0.2; done; }
# The centres of all parts, one x and y after the other.
places() {
  python3 - "$1" <<'PY'
import re, sys
print(re.findall(r"at: \(\s*(-?[\d.]+),\s*(-?[\d.]+),?\s*\)", open(sys.argv[1]).read()))
PY
}
mirrored() { python3 -c "print([(x, y[1:] if y[0] == '-' else y if float(y) == 0 else '-' + y) for x, y in $1])"; }
mark() { report "$1" once-over "round(d['mark'], 3)"; }
limit() { report "$1" once-over "d['wrist']['width_limit_mm']"; }
price() { report "$1" stems "d['price_cents']"; }

# Places on the window of 1366 x 740.
order="1079 32" right="380 32" keep="929 32"
years="440 175" left_handed="149 385" spare_right="279 434" wheels="428 434" girth="286 513" sage="677 270"
yes="846 688" not_now="944 688"
# Stops of Tab from the head of the questions, without a question being asked of the order.
tab_years=3 tab_left_handed=7 tab_spare_right=10 tab_wheels=11 tab_girth=14

start; leave # lays the sample shop out

echo "-- a left hand: the other wrist is proposed, the picture turns over, nothing else changes"
for by in pointer keys; do
  file=$(order_of "Ottoline-$by" 03-full)
  start "$file"
  kept
  before=$(places "$file") mark_before=$(mark "$file") price_before=$(price "$file")
  if [ $by = pointer ]; then tap $order; tap $left_handed; else page q; tabs $tab_left_handed; key Return; fi
  kept
  has "the hand is known" "$file" "handed: left"
  has "nothing is done before a yes" "$file" "side: left"
  shot "wearer-left-$by"
  if [ $by = pointer ]; then tap $yes; tap $keep; sleep 0.7; else key Escape; page q; key Tab Return; kept; fi
  has "the other wrist" "$file" "side: right"
  expect "mirrored" "$(places "$file")" "$(mirrored "$before")"
  expect "mark" "$(mark "$file")" "$mark_before"
  expect "price" "$(price "$file")" "$price_before"
  leave
done
if command -v pdftotext >/dev/null; then
  "$binary" papers "$file" --into "$home/papers" >/dev/null
  pdftotext "$home"/papers/*-bench-card.pdf "$home/card.txt"
  has "the bench card says it large" "$home/card.txt" "RIGHT"
fi

echo "-- hands on wheels: asked one by one, flat, without tails, higher; upper arm and lapel are left for now"
for by in pointer keys; do
  file=$(order_of "Ludovic-$by" 02-classic)
  start "$file"
  if [ $by = pointer ]; then tap $right; tap $order; tap $wheels; tap $keep; sleep 0.7; else page q; tabs $tab_wheels; key Return; kept; fi
  has "it is known" "$file" "pushes_chair: true"
  lacks "nothing is done before a yes" "$file" "height: 30"
  for asked in flat tails higher; do
    shot "wearer-wheels-$by-$asked"
    if [ $by = pointer ]; then tap $yes; else key Escape; page q; key Tab Return; fi
  done
  for asked in arm lapel; do
    shot "wearer-wheels-$by-$asked"
    if [ $by = pointer ]; then tap $not_now; else key Escape; page q; key Tab Tab Return; fi
  done
  shot "wearer-wheels-$by-done"
  kept
  has "height allowed" "$file" "height: 30"
  has "no tails" "$file" "tails: 0"
  has "higher up the arm" "$file" "offset: 80"
  has "still on the wrist" "$file" "worn: wrist"
  leave
done

echo "-- a child of six, 122 mm: a narrow oval and a band that fits"
for by in pointer keys; do
  file=$(order_of "Pim-$by" 02-classic)
  start "$file"
  if [ $by = pointer ]; then
    tap $order; tap $years; write 6; key Return; tap $girth; write 122; key Return
  else
    page q; tabs $tab_years; write 6; key Return Escape g; sleep 0.3; write 122; key Return
  fi
  for asked in one two; do
    shot "wearer-child-$by-$asked"
    if [ $by = pointer ]; then tap $yes; else key Escape; page q; key Tab Return; fi
  done
  shot "wearer-child-$by-done"
  kept
  has "six years" "$file" "kind: child(6)"
  expect "width allowed" "$(limit "$file")" 48.8
  has "the oval follows" "$file" "width: 48.8"
  lacks "no standard elastic" "$file" 'band: "elastic-medium"'
  leave
done

echo "-- a child of two: pearls do not come into the hand, the ribbon is tied"
file=$(order_of "Juno" 01-petite)
start "$file"
tap $order; tap $years; write 2; key Return; key Escape
key Escape t; sleep 0.3
for n in 1 2 3 4 5; do key $n; shot "wearer-small-$n"; key Return Escape Escape; done
tap $order; shot wearer-small-tie; tap $yes; kept
has "two years" "$file" "kind: child(2)"
has "tied" "$file" 'band: "ribbon-tie"'
expect "loose parts" "$(report "$file" stems "sum(l['pieces'] for l in d['lines'] if l['role'] == 'trim')")" 0
leave

echo "-- two mothers: the same heads, widths of their own; an operated arm carries nothing and nothing elastic"
for by in pointer keys; do
  one=$(order_of "Henrike-$by" 02-classic)
  sed -i 's/side: left/side: right/; s/girth: [^,)]*/girth: 150/' "$one"
  start "$one"
  if [ $by = pointer ]; then tap $order; tap $spare_right; else page q; tabs $tab_spare_right; key Return; fi
  for asked in arm band; do
    shot "wearer-mother-$by-$asked"
    if [ $by = pointer ]; then tap $yes; else key Escape; page q; key Tab Return; fi
  done
  kept
  has "the arm is spared" "$one" "spared_arm: right"
  has "the other one carries it" "$one" "side: left"
  lacks "nothing elastic" "$one" 'band: "elastic'
  leave
  two=$(order_of "Solveig-$by" 02-classic)
  start "$two"
  if [ $by = pointer ]; then
    tap $order; tap $sage; tap $girth; write 178; key Return; tap $keep; sleep 0.7
  else
    key g; sleep 0.3; write 178; key Return; kept
  fi
  leave
  [ $by = keys ] || has "her dress" "$two" "sage"
  expect "widths allowed" "$(limit "$one") and $(limit "$two")" "60.0 and 71.2"
  heads() { report "$1" stems "sum(l['pieces'] for l in d['lines'] if l['role'] == 'bloom')"; }
  expect "heads of both" "$(($(heads "$one") + $(heads "$two")))" 10
  expect "price of both" "$(($(price "$one") + $(price "$two")))" 5400
  holds "marks alike" "abs($(mark "$one") - $(mark "$two")) <= 5"
done

echo "-- inches, centimetres, and a girth that must be asked about"
file=$(order_of "Ingunn" 02-classic)
start "$file"
tap $order
tap $girth; write "6 1/4"; key Return; tap $keep; sleep 0.7
has "as it was typed" "$file" 'girth: "6 1/4"'
expect "as it is reckoned" "$(report "$file" once-over "d['wrist']['girth_mm']")" 158.75
expect "width allowed" "$(limit "$file")" 63.5
shot wearer-inches
tap $girth; write "1.55"; key Return; shot wearer-asked; kept
expect "nothing changes before a yes" "$(report "$file" once-over "d['wrist']['girth_mm']")" 158.75
leave
for _ in 1 2 3 4 5; do start "$file"; key n Up; kept; key ctrl+z; kept; leave; done
has "still as it was typed, after five times" "$file" 'girth: "6 1/4"'
start "$file" # by keys
for typed in "15.5 cm" "155"; do
  key g; sleep 0.3; write "$typed"; key Return; kept
  expect "$typed" "$(report "$file" once-over "d['wrist']['girth_mm']")" 155.0
  key g; sleep 0.3; write "6 1/4"; key Return; kept
  has "and back" "$file" 'girth: "6 1/4"'
done
leave

echo "-- the house style: felt at once, kept in the shop, undone; by pointer and by keys"
style=$shop/styles/house.ron
start "$file"
price_before=$(price "$file")
tap 41 352; shot house
tap 453 286 # a step more of the width allowed
has "the width allowed" "$style" "width_of_girth: 0.41"
expect "width allowed" "$(limit "$file")" 65.0875
key ctrl+z
has "undone" "$style" "width_of_girth: 0.4,"
key 5; tap 388 262; key ctrl+a; write "4"; key Return; shot house-money
has "fresh goods times" "$style" "fresh_times: 4,"
holds "the price follows" "$(price "$file") > $price_before"
key ctrl+z
expect "and back" "$(price "$file")" "$price_before"
key 1 Escape; page y; tabs 8; write "nine"; key Return; shot house-refused # by keys: six sections, a step less, the first field
has "what cannot be read changes nothing" "$style" "width_of_girth: 0.4,"
key Escape Escape; page y; tabs 9; key Return # a step more
has "by keys" "$style" "width_of_girth: 0.41"
key ctrl+z
key F2 y; shot house-client
key F2
leave
echo "window: the wearers are done"
