#!/usr/bin/env bash
# Drives the page Colour in the real window: the dress by hex with keys alone, by a swatch with the pointer, from a photo named in the call; a
# broken photo; other eyes; the second window. Asserts on what was kept on disk and on the screen's pixels.
# usage: colour.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
. "$here/hands.sh"

# the dress of an order as it is kept, on one line: dress:(hex:"#8b1427",)
dress() { tr -d ' \n' <"$1" 2>/dev/null | grep -o 'dress:([^)]*)' | head -1; }
settled() { sleep "${1:-1}"; }
# waits until a command says what is expected: comes WHAT EXPECTED COMMAND...
comes() {
  local what=$1 wanted=$2 found=; shift 2
  for _ in $(seq 60); do found=$("$@" || true); [ "$found" = "$wanted" ] && { echo "ok  $what: $found"; return 0; }; sleep 0.3; done
  fail "$what: expected $wanted, found $found"
}
# the colour of one pixel of the window, as #rrggbb
pixel() { maim -i "$window" | convert - -crop "1x1+$1+$2" -depth 8 txt:- | grep -io '#[0-9a-f]\{6\}' | head -1 | tr 'A-F' 'a-f'; }
# the colour of one pixel when it has stayed the same for a while
at_rest() {
  local last= now same=0
  for _ in $(seq 60); do
    now=$(pixel "$@"); [ "$now" = "$last" ] && same=$((same + 1)) || same=0
    [ $same = 4 ] && { echo "$now"; return 0; }
    last=$now; sleep 0.4
  done
  fail "the pixel at $* does not come to rest"
}

# Places on the window of 1366 x 740: the patch of the dress, a swatch, the right part of the photo, the patch of what was read in it, the
# button that takes it; cloth on the sheet.
patch="130 150" navy="309 458" photo_right="412 450" read="125 612" this_is_it="464 612" cloth="200 300"

echo "-- the dress by hex, with keys alone: one step, undone and done again"
start
key ctrl+n d
settled
key t; settled 0.4
write "#8b1427"
key Return
shot c1-hex
comes "the patch shows it" "#8b1427" pixel $patch
key ctrl+s
order=$shop/orders/petite.ron
comes "kept by keys" 'dress:(hex:"#8b1427",)' dress "$order"
key ctrl+z; key ctrl+s
comes "undone" "" dress "$order"
key ctrl+y; key ctrl+s
comes "done again" 'dress:(hex:"#8b1427",)' dress "$order"

echo "-- the dress by a plain swatch, with the pointer"
tap $navy
comes "the patch shows it" "#1c2849" pixel $patch
shot c2-swatch
key ctrl+s
comes "kept by the pointer" 'dress:(hex:"#1c2849",words:"navy",)' dress "$order"
leave

echo "-- the dress from a photo that is named in the call"
photo=$home/dress.png
convert -size 1200x900 xc:'#8b1427' -fill '#145a64' -draw 'rectangle 800,0 1200,900' "$photo"
start "$order" --photo "$photo"
comes "the middle is read first" "#8b1427" pixel $read
shot c3-photo
tap $photo_right # on the blue-green part
comes "read where it was tapped" "#145a64" pixel $read
shot c3-tapped
tap $this_is_it
key ctrl+s
hex() { dress "$order" | grep -o '#[0-9a-f]*'; }
comes "kept from the photo" "#145a64" hex
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
before=$(at_rest $cloth)
changed() { [ "$(pixel $cloth)" = "$before" ] && echo no || echo yes; }
key F6
comes "the cloth changed" yes changed
shot c5-eyes
# pressed while the program hangs: all three count
kill -STOP "$app"
key F6 F6 F6
kill -CONT "$app"
comes "the usual eyes again" no changed

echo "-- the second window opens, shuts, and is remembered"
second() { xdotool search --onlyvisible --name 'your piece' 2>/dev/null | wc -l; }
expect "second windows at first" "$(second)" 0
key F4
comes "opened" 1 second
settled 2
maim -i "$(xdotool search --onlyvisible --name 'your piece' | head -1)" "$shots/c6-second.png"
holds "it is not blank" "$(identify -format '%k' "$shots/c6-second.png") > 500"
key F4
comes "shut" 0 second
key F4
comes "opened again" 1 second
leave
start "$order"
comes "remembered" 1 second
settled
maim -i "$(xdotool search --onlyvisible --name 'your piece' | head -1)" "$shots/c7-rests.png"
xdotool windowfocus --sync "$window"
key F4; settled; key F4
comes "shown, then shut" 0 second
leave
start "$order"
expect "shut is remembered too" "$(second)" 0
leave
echo "window: the walk through colours is done"
