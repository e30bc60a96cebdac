#!/usr/bin/env bash
# Sets pieces out in the real window, by pointer and by keys alone: whole layouts from what a size promises, an accent evened out, gaps
# filled, one more piece, a lock that holds. Asserts on what was kept on disk and on the marks that the program itself reports.
# usage: set_out.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

# Places on the window of 1366 x 740: buttons of the strip, the button over the sheet, those of the panel, its first card.
undo="603 32" keep="929 32" set_out="970 464" evened="543 557" filled="440 557" first_card="170 660"

marked() { report "$1" once-over "round(d['mark'], 3)"; }
parts() { grep -c '(id:' "$1" || true; }

echo "-- the demo shop is laid out"
start
leave

echo "-- scenario 5: an uneven accent, evened out in the panel, by keys and by taps"
five=$shop/orders/five.ron
cp "$here/five-accents.ron" "$five"
widest() { report "$five" once-over "round(max(s for k in d['spread'] if k['role'] == 'accent' for s in k['steps_deg']))"; }
before=$(marked "$five")
expect "widest step before" "$(widest)" 92
start "$five"
key p; sleep 1.5
key e; sleep 1; shot o1-evened
key ctrl+s
expect "evened out by keys" "$(widest)" 72
holds "the mark did not fall" "$(marked "$five") >= $before"
key ctrl+z ctrl+s
expect "undone by keys, one step" "$(widest)" 92
leave
start "$five"
tap $set_out; sleep 1.5
tap $evened; sleep 1
tap $keep
expect "evened out by taps" "$(widest)" 72
tap $undo; tap $keep
expect "undone by taps" "$(widest)" 92
leave

echo "-- scenario 6: a Classic without a part is set out; five heads of 30 mm cover 0.93 of its oval's area"
bare=$shop/orders/bare.ron
python3 - "$shop/orders/02-classic.ron" "$bare" <<'PY'
import re, sys
text = open(sys.argv[1]).read()
open(sys.argv[2], "w").write(re.sub(r"parts: \[.*?\n        \],", "parts: [],", text, flags=re.S))
PY
expect "no part yet" "$(parts "$bare")" 0
fullness() { report "$bare" once-over "round(d['cover']['fullness'], 2)"; }
start "$bare"
key p; sleep 2.5; shot o2-layouts
key 1 ctrl+s
expect "fullness, set out by keys" "$(fullness)" 0.93
by_keys=$(marked "$bare")
holds "a layout worth taking" "$by_keys > 90"
key ctrl+z ctrl+s
expect "undone: no part" "$(parts "$bare")" 0
tap $set_out; sleep 2.5
tap $first_card
tap $keep
expect "fullness, set out by taps" "$(fullness)" 0.93
expect "the same first layout" "$(marked "$bare")" "$by_keys"

echo "-- a piece that is locked stays to the last digit while the rest is laid anew"
python3 - "$bare" <<'PY'
import re, sys
text = open(sys.argv[1]).read()
line = re.search(r"\(id: \d+,[^\n]*spray-rose[^\n]*\n", text).group(0)
open(sys.argv[1] + ".line", "w").write(re.search(r"at: \([^)]*\)", line).group(0))
PY
leave
sed -i '0,/spray-rose/s/\(spray-rose".*\)),$/\1, locked: true),/' "$bare"
grep -q "locked: true" "$bare" || fail "no part was locked"
start "$bare"
key p; sleep 2.5
key 2 ctrl+s
grep "locked: true" "$bare" | grep -qF "$(cat "$bare.line")" || fail "the locked part has moved"
echo "ok  the locked part is where it was"
shot o3-locked

leave

echo "-- bare spots: one more is put on, then all gaps are filled; each one step, and the mark rises"
gaps=$shop/orders/05-bare-spots.ron
n=$(parts "$gaps"); before=$(marked "$gaps")
start "$gaps"
key p; sleep 2
key h; sleep 1.5; shot o4-one-more
key 1 ctrl+s
expect "one more" "$(parts "$gaps")" $((n + 1))
key ctrl+z ctrl+s
expect "undone, by keys" "$(parts "$gaps")" "$n"
tap $filled; sleep 1.5; shot o5-filled
tap $keep
holds "gaps were filled" "$(parts "$gaps") > $n and $(marked "$gaps") > $before"
tap $undo; tap $keep
expect "undone by taps, one step" "$(parts "$gaps")" "$n"
leave

echo "set out: all walks done"
