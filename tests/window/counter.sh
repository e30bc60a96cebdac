#!/usr/bin/env bash
# Walks the counter in the real window under Xvfb, by pointer and then by keys: sizes side by side, a purse, a price below the
# worked one, a boutonniere with half down and a yes, an interruption, an allergy. Asserts on what was kept on disk and on what
# changed on the screen. People and dances are invented for this walk.
# usage: counter.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

# Places on the window of 1366 x 740.
price="41 272" side_by_side="991 591" undo="603 32" keep="929 32" order="1079 32" new="712 32"
spot() { convert "$shots/$1.png" -format "%[hex:p{$2,$3}]" info:; } # the colour of one pixel
calm() { # until the screen has been the same twice
  local before="" now
  for _ in $(seq 20); do
    now=$(maim -i "$window" | md5sum)
    [ "$now" = "$before" ] && return 0
    before=$now; sleep 0.5
  done
}
shot() { sleep 0.5; calm; maim -i "$window" "$shots/$1.png"; }
look() { identify -format '%#' "$shots/$1.png"; }                    # what tells two screens apart
asked() { report "$1" quote "$2"; }
says() { grep -q "$3" "$2" || fail "$1: no $3 in $(cat "$2")"; echo "ok  $1: $3"; }
silent() { if grep -q "$3" "$2"; then fail "$1: $3 stands in $2"; fi; echo "ok  $1: no $3"; }
differs() { [ "$(look "$2")" != "$(look "$3")" ] || fail "$1: $2 and $3 look the same"; echo "ok  $1"; }
# So many stops on from the head of a page, or back; two within one frame would count as one.
press() { tap "$@"; sleep 0.5; }
slowly() { for k in "$@"; do key "$k"; sleep 0.4; done; }
kept() { sleep 0.7; key ctrl+s; sleep 0.4; } # a slow frame may still be at the tap before
back() { for _ in $(seq "$1"); do key shift+Tab; sleep 0.3; done; }
on() { for _ in $(seq "$1"); do key Tab; sleep 0.3; done; }

start; leave # lays the demo shop out

echo "-- two sizes side by side, and a purse, by pointer"
file=$(order_of Perpetua 01-petite)
start "$file"
press $side_by_side; sleep 5; shot counter-sizes
key F2; shot counter-sizes-client; key F2
differs "my side and the client's side" counter-sizes counter-sizes-client
press 399 144; write 30
kept; shot counter-purse
says "the purse is kept" "$file" "purse: 30"
leaf=$(spot counter-purse 900 14)
expect "the Classic is the one that fits" "$(spot counter-purse 408 400)" "$leaf"
holds "and no other" "'$(spot counter-purse 97 400)' != '$leaf' and '$(spot counter-purse 720 400)' != '$leaf'"
press 471 660 # Take Classic
kept
says "taken" "$file" 'size: "Classic"'
expect "as it was shown: heads, none to come" "$(report "$file" stems "(d['lines'][0]['pieces'], sum(l['to_place'] for l in d['lines']))")" "(5, 0)"
expect "price of the Classic" "$(asked "$file" "d['total_cents']")" 2700
press $undo; press $keep
says "one step back" "$file" 'size: "Petite"'
expect "price of the Petite" "$(asked "$file" "d['total_cents']")" 2000
leave

echo "-- the same by keys"
file=$(order_of Leontine 01-petite)
start "$file"
key c; sleep 5
on 3; write 30
key Tab c c; sleep 5 # out of the field, and the page anew
on 8; key Return; kept
says "the purse is kept" "$file" "purse: 30"
says "taken" "$file" 'size: "Classic"'
expect "price of the Classic" "$(asked "$file" "d['total_cents']")" 2700
leave

below() { # FILE: twenty for a Full, with its reason
  says "the reason is kept" "$1" 'reason: "an old friend"'
  expect "below the worked price by" "$(asked "$1" "d['below_cents']")" 1524
  expect "what it costs and loses" "$(asked "$1" "(d['my_side']['cost_cents'], d['my_side']['loses_cents'])")" "(2143, 143)"
  expect "she keeps her price" "$(asked "$1" "d['total_cents']")" 2000
}
echo "-- twenty for a Full, by pointer"
file=$(order_of Ambrosia 03-full)
start "$file"
press $price; shot counter-price
press 263 453; write 20
shot counter-below
differs "a price below the worked one is seen" counter-price counter-below
on 1; write "an old friend"
press $price # leaves the field
key F2; shot counter-below-client; key F2
differs "the client sees the price and not what it means" counter-below counter-below-client
press $keep
below "$file"
leave
echo "-- and by keys"
file=$(order_of Drusilla 03-full)
start "$file"
key i; sleep 1; on 7; write 20; on 1; write "an old friend"; kept
below "$file"
leave

half_down() { # FILE
  expect "Classic and boutonniere" "$(asked "$1" "[l['cents'] for l in d['lines']]")" "[2700, 800]"
  expect "total, deposit, balance" "$(asked "$1" "(d['total_cents'], d['deposit_cents'], d['balance_cents'])")" "(3500, 1750, 1750)"
  expect "paid and due" "$(asked "$1" "(d['paid_cents'], d['due_cents'])")" "(1750, 1750)"
  says "the yes has its day" "$1" "on: \"20[0-9][0-9]-[0-9][0-9]-[0-9][0-9]\""
}
echo "-- a matching boutonniere, half down, the yes; by pointer"
file=$(order_of Hermia 02-classic)
start "$file"
press 213 470 # Matching boutonniere
shot counter-pair
press 194 400; shot counter-boutonniere # its own sheet
differs "the boutonniere has its own sheet" counter-pair counter-boutonniere
press 194 400
press $price; sleep 1; shot counter-slip
press 275 395 # half of it is paid
press 653 521 # Yes, agreed
shot counter-agreed
kept
half_down "$file"
press 152 227; kept # in a rush
shot counter-changed
differs "what changed since stands beside it" counter-agreed counter-changed
expect "with a rush; what was agreed stays" "$(asked "$file" "(d['total_cents'], d['deposit_cents'])")" "(4400, 1750)"
key F2; shot counter-changed-client; key F2
press $undo; press $keep
expect "the rush undone" "$(asked "$file" "d['total_cents']")" 3500
leave
echo "-- and by keys"
file=$(order_of Sabina 02-classic)
start "$file"
key x i; sleep 1
on 5; key Return
on 8 # past the other price, both pieces, why, the slip and leaving it out
key Return; kept
half_down "$file"
slowly Escape x n Delete x; kept # one part off the boutonniere, none off the wrist piece
expect "the wrist piece is left alone" "$(report "$file" stems "sum(l['pieces'] for l in d['lines'])")" 13
expect "the boutonniere has less" "$(asked "$file" "d['lines'][0]['cents'] == 2700 and d['lines'][1]['cents'] < 800")" True
leave

echo "-- interrupted: a second order, and back, by pointer"
file=$(order_of Philippa 01-petite)
start "$file"
slowly n Up Up; kept
first=$(cat "$file")
press $new # the first is kept, so one tap
press 190 32; write "Rosalba"
kept
second=$shop/orders/rosalba-petite.ron
[ -f "$second" ] || fail "the half-empty order was not kept"
silent "the dress is still to find out" "$second" "dress:"
press 773 32; sleep 0.8; write "philippa" # Open; shot counter-orders
on 2; key Return; sleep 1.5
kept
[ "$(cat "$file")" = "$first" ] || fail "the first sketch is no longer as it was"
slowly n Up; kept
[ "$(cat "$file")" != "$first" ] || fail "the first sketch does not go on"
echo "ok  the first sketch was untouched and goes on"
leave

stopped_file() { # NAME
  cat >"$shop/orders/$1.ron" <<RON
(
    version: 1, wearer: "$1", allergies: ["babys-breath"], no_latex: true,
    wrist: (side: left, girth: 150, measured: tape), size: "Classic",
    piece: (oval: (length: 90, width: 54), band: "elastic-medium", parts: [
        (stock: "spray-rose", colour: "white", at: (28, 0)), (stock: "spray-rose", colour: "white", at: (-28, 0)),
        (stock: "spray-rose", colour: "white", at: (0, -13)), (stock: "spray-rose", colour: "white", at: (4, 12)),
        (stock: "spray-rose", colour: "white", at: (0, 0), level: top),
        (stock: "babys-breath", colour: "white", at: (17, -15)), (stock: "babys-breath", colour: "white", at: (-16, 15)),
        (stock: "italian-ruscus", colour: "green", at: (24, 14)),
    ]),
)
RON
  echo "$shop/orders/$1.ron"
}
echo "-- an allergy: stopped beside the sizes and the yes, seen to; by pointer"
file=$(stopped_file Quiteria)
start "$file"
press $price; sleep 1; shot counter-stopped
press $side_by_side; sleep 0.3
press $order; sleep 0.5; shot counter-asked
press 846 688; press 846 688 # Yes, take it: the band, then the flower
press $keep
silent "the flower is gone" "$file" "babys-breath\", colour"
silent "the band is gone" "$file" 'band: "elastic'
press $price; sleep 1; shot counter-well
differs "nothing is stopped any more" counter-stopped counter-well
leave
echo "-- and by keys: refused from the tray, and another way"
file=$(stopped_file Zenobia)
start "$file"
before=$(report "$file" stems "sum(l['pieces'] for l in d['lines'])")
slowly s 1 Return Escape Escape; kept # the first sprig of the tray is the one on the piece: it is refused
expect "nothing that is stopped comes into the hand" "$(report "$file" stems "sum(l['pieces'] for l in d['lines'])")" "$before"
key j; sleep 1; on 14; key Return; sleep 1; shot counter-way
back 11; key Return; kept # Take it
silent "the flower is gone" "$file" "babys-breath\", colour"
key ctrl+z; kept
says "one step back" "$file" "babys-breath\", colour"
leave
echo "counter: all walks done"
