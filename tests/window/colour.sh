#!/usr/bin/env bash
# Drives the page Colour in the real window: the dress by hex with keys alone, by a swatch with the pointer, from a photo named in the call; a
# broken photo; other eyes; the second window. Asserts on what was kept on disk and on the screen's pixels.
# usage: colour.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
. "$here/hands.sh"

dress() { grep -o 'dress: ([^)]*)' "$1" | head -1; }
settled() { sleep "${1:-1}"; }
# the colour of one pixel of the window, as #rrggbb
pixel() { maim -i "$window" | convert - -crop "1x1+$1+$2" -depth 8 txt:- | grep -io '#[0-9a-f]\{6\}' | head -1 | tr 'A-F' 'a-f'; }

echo "-- the dress by hex, with keys alone: one step, undone and done again"
start
key ctrl+n d
settled
key t; settled 0.4
write "#8b1427"
key Return
shot c1-hex
expect "the patch shows it" "$(pixel 130 150)" "#8b1427"
key ctrl+s
order=$shop/orders/petite.ron
[ -f "$order" ] || fail "the order was not kept"
expect "kept by keys" "$(dress "$order")" 'dress: (hex: "#8b1427")'
key ctrl+z; key ctrl+s
expect "undone" "$(dress "$order")" ""
key ctrl+y; key ctrl+s
expect "done again" "$(dress "$order")" 'dress: (hex: "#8b1427")'

echo "-- the dress by a plain swatch, with the pointer"
tap $swatch_navy
shot c2-swatch
key ctrl+s
expect "kept by the pointer" "$(dress "$order")" 'dress: (hex: "#1c2849", words: "navy")'
leave

echo "-- the dress from a photo that is named in the call"
photo=$home/dress.png
convert -size 1200x900 xc:'#8b1427' -fill '#145a64' -draw 'rectangle 800,0 1200,900' "$photo"
start "$order" --photo "$photo"
settled 2
shot c3-photo
tap $photo_right # on the blue-green part
settled
shot c3-tapped
tap $this_is_it
key ctrl+s
expect "kept from the photo" "$(dress "$order" | grep -o '#[0-9a-f]*')" "#145a64"
leave

echo "-- a broken photo is told, and harms nothing"
head -c 300 "$photo" >"$home/broken.png"
start "$order" --photo "$home/broken.png"
settled
shot c4-broken
kill -0 "$app" 2>/dev/null || fail "a broken photo ended it"
leave

echo "-- other eyes, by key: the cloth of the sheet changes, and comes back"
start "$order"
before=$(pixel 200 300)
expect "the cloth" "$before" "#145a64"
key F6; settled 1.5
shot c5-eyes
[ "$(pixel 200 300)" != "$before" ] || fail "the cloth did not change"
key F6 F6 F6; settled 1.5
expect "the usual eyes again" "$(pixel 200 300)" "$before"

echo "-- the second window opens, shuts, is closed by its own frame, and is remembered"
second() { xdotool search --onlyvisible --name 'your piece' 2>/dev/null | wc -l; }
expect "second windows at first" "$(second)" 0
key F4; settled 2
expect "opened" "$(second)" 1
maim -i "$(xdotool search --onlyvisible --name 'your piece' | head -1)" "$shots/c6-second.png"
holds "it is not blank" "$(identify -format '%k' "$shots/c6-second.png") > 500"
key F4; settled
expect "shut" "$(second)" 0
key F4; settled
leave
start "$order"
settled
expect "remembered" "$(second)" 1
maim -i "$(xdotool search --onlyvisible --name 'your piece' | head -1)" "$shots/c7-rests.png"
key F4; settled; key F4; settled
expect "shown, then shut" "$(second)" 0
leave
start "$order"
expect "shut is remembered too" "$(second)" 0
leave
echo "window: the walk through colours is done"
