#!/usr/bin/env bash
# Walks the counter in the real window under Xvfb by taps alone: no key is pressed from the first start to the last. Every tap is that
# of a wet finger: it lasts 0.3 s and slips by 9 points. Words and figures are tapped in on the board on the screen. Asserts on what was
# kept on disk. People and dances are invented for this walk.
# usage: taps.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

calm() { # until the screen has been the same twice
  local before="" now
  for _ in $(seq 20); do
    now=$(maim -i "$window" | md5sum)
    [ "$now" = "$before" ] && return 0
    before=$now; sleep 0.2
  done
}
n_taps=0
wet() { # X Y: a wet finger, slipping a little another way each time
  local ways=("9 0" "0 9" "-9 0" "0 -9" "6 6" "-6 6")
  local slip=(${ways[$((n_taps % 6))]})
  n_taps=$((n_taps + 1))
  xdotool mousemove --window "$window" "$1" "$2"; sleep 0.1; xdotool mousedown 1 sleep 0.15 \
    mousemove --window "$window" $(($1 + slip[0])) $(($2 + slip[1])) sleep 0.15 mouseup 1; sleep 0.2
  calm
}
key() { fail "a key was pressed: $*"; }
write() { fail "a key was pressed: $*"; }
begin() { # Look round in the sample shop; a first frame may be slow to hear of it
  for _ in 1 2 3; do
    calm; wet 525 424
    for _ in $(seq 20); do [ ! -f "$shop/orders/11-teal-gown.ron" ] || return 0; sleep 0.25; done
  done
  fail "the sample shop was not laid out"
}
close() { # as the window's frame does
  python3 "$here/close.py" "$window"
  for _ in $(seq 60); do kill -0 "$app" 2>/dev/null || { window=; wait "$app" || fail "it ended with $?"; return 0; }; sleep 0.1; done
  fail "it did not close"
}
has() { # a slow machine may still be writing
  for _ in $(seq 40); do grep -q "$3" "$2" && break; sleep 0.25; done
  grep -q "$3" "$2" || fail "$1: no $3 in $(cat "$2")"; echo "ok  $1: $3"
}
lacks() { if grep -q "$3" "$2"; then fail "$1: $3 in $(cat "$2")"; fi; echo "ok  $1: no $3"; }
places() { grep -o 'at: ([^)]*)' "$1" | tr -d '\n'; }
mark() { report "$1" once-over "round(d['mark'], 3)"; }
limit() { report "$1" once-over "d['wrist']['width_limit_mm']"; }
price() { report "$1" stems "d['price_cents']"; }
parts() { report "$1" stems "sum(l['pieces'] for l in d['lines'])"; }
placed() { report "$1" stems "sum(l['pieces'] - l['to_place'] for l in d['lines'])"; }
asked() { report "$1" quote "$2"; }
spot() { convert "$shots/$1.png" -format "%[hex:p{$2,$3}]" info:; }
differs() { [ "$(identify -format '%#' "$shots/$2.png")" != "$(identify -format '%#' "$shots/$3.png")" ] || fail "$1"; echo "ok  $1"; }

# Places on the window of 1366 x 740.
cx=559 cy=296
wearer="190 32" girth_above="500 32" right="380 32" undo="603 32" new="712 32" open="773 32" keep="929 32" look="1002 32" order="1069 32"
board="41 543" price_place="41 272" sketch="41 112"
kept() { # waits until it is on the disk; on a machine that is busy elsewhere a tap may come as too long a press
  touch "$home/before"; sleep 0.05
  for _ in 1 2; do
    wet $keep
    for _ in $(seq 20); do [ -z "$(find "$shop/orders" -name '*.ron' -newer "$home/before")" ] || return 0; sleep 0.25; done
  done
  fail "it was not kept"
}

# The board: letters under the pages (low) or under the sheet (high); figures for a field in the lower half stand at the top.
letters() { # low|high|top WORDS, in small letters: names get their capitals by themselves; ~ goes to the accents and back
  local row=524 words=$2 rows=("1234567890" "qwertyuiop" "asdfghjkl'" "zxcvbnm,.-") n letter line before
  case $1 in low) row=702 ;; top) row=351 ;; esac
  for ((n = 0; n < ${#words}; n++)); do
    letter=${words:n:1}
    case $letter in
      ' ') wet 509 $row ;;
      *)
        for line in 0 1 2 3; do
          before=${rows[line]%%"$letter"*}
          [ "$before" = "${rows[line]}" ] || wet $((307 + 56 * ${#before})) $((row - 200 + 50 * line))
        done ;;
    esac
  done
}
figures() { # high|low|top KEYS...: of a board with three keys a row; "done" ends it
  local first=310 columns=3 left=483 k n
  case $1 in low) first=488 ;; top) first=153 ;; esac
  shift
  for k in "$@"; do
    n=$(expr index 789456123 "$k" || true)
    if [ "$k" = done ]; then wet 624 $((first + 214)); elif [ "$k" = 0 ]; then wet 483 $((first + 162)); else
      wet $((left + 76 * ((n - 1) % columns))) $((first + 54 * ((n - 1) / columns)))
    fi
  done
}
girth_of() { # high|top KEYS...: the board of the girth, five keys a row
  local first=310 k n
  [ "$1" = high ] || first=153
  shift
  for k in "$@"; do
    case $k in
      1/8) wet 635 $first ;; 1/4) wet 711 $first ;; 3/8) wet 635 $((first + 54)) ;; 1/2) wet 711 $((first + 54)) ;;
      0) wet 407 $((first + 162)) ;; .) wet 483 $((first + 162)) ;; done) wet 563 $((first + 214)) ;;
      *) n=$(expr index 789456123 "$k"); wet $((407 + 76 * ((n - 1) % 3))) $((first + 54 * ((n - 1) / 3))) ;;
    esac
  done
}

begin_on() { start "$1"; calm; }
start; calm
wet $board; shot taps-board-on # the keys come from now on, and at every start
close

echo "-- a whole order: name, girth, three heads, kept"
begin_on "$shop/orders/06-empty.ron"
wet $new
wet $wearer; letters high "mina o'dea"; shot taps-letters; wet 732 524
wet $girth_above; girth_of high 1 3 5; shot taps-figures; girth_of high done
wet 148 676
wet $cx $((cy - 110)); wet $cx $cy; wet $cx $((cy + 110))
kept; shot taps-whole
mina=$shop/orders/mina-o-dea-petite.ron
has "the name, with its capitals" "$mina" "Mina O.*Dea"
expect "three heads" "$(report "$mina" stems "d['lines'][0]['pieces'] - d['lines'][0]['to_place']")" 3
expect "width allowed" "$(limit "$mina")" 54.0
expect "price" "$(price "$mina")" 2000
close

echo "-- two sizes side by side, and a purse"
file=$(order_of Perpetua 01-petite)
begin_on "$file"
wet 991 591; sleep 3; shot taps-sizes
wet 399 144; figures low 3 0 done
kept; shot taps-purse
has "the purse is kept" "$file" "purse: 30"
leaf=$(spot taps-purse 900 14)
expect "the Classic is the one that fits" "$(spot taps-purse 408 400)" "$leaf"
wet 471 660; kept # Take Classic
has "taken" "$file" 'size: "Classic"'
expect "price of the Classic" "$(asked "$file" "d['total_cents']")" 2700
close

echo "-- twenty for a Full, with its reason"
file=$(order_of Ambrosia 03-full)
begin_on "$file"
wet $price_place
wet 263 453; figures top 2 0 done
wet 423 453; letters top "an old friend"; wet 760 351
kept; shot taps-below
has "the reason is kept" "$file" 'reason: "an old friend"'
expect "below the worked price by" "$(asked "$file" "d['below_cents']")" 1524
expect "what it costs and loses" "$(asked "$file" "(d['my_side']['cost_cents'], d['my_side']['loses_cents'])")" "(2143, 143)"
expect "she keeps her price" "$(asked "$file" "d['total_cents']")" 2000
close

echo "-- half down: a matching boutonniere, the quote slip, what is paid, the yes"
file=$(order_of Hermia 02-classic)
begin_on "$file"
wet 213 470    # Matching boutonniere
wet $price_place
wet 747 390    # Quote slip
has "the day of the quote is kept with the order" "$file" "quoted_on: \"20[0-9][0-9]-[0-9][0-9]-[0-9][0-9]\""
shot taps-slip
[ -n "$(ls "$shop"/papers/*quote-slip.pdf "$shop"/papers/*quote-slip.png)" ] || fail "no slip was made"
held=$(asked "$file" "d['holds_until']")
holds "the price holds until a day" "'$held' > '$(date -u +%F)'"
wet 275 420    # half of it is paid, under the day until which the price holds
wet 653 521    # Yes, agreed
kept; shot taps-half-down
expect "Classic and boutonniere" "$(asked "$file" "[l['cents'] for l in d['lines']]")" "[2700, 800]"
expect "total, deposit, balance, paid, due" \
  "$(asked "$file" "(d['total_cents'], d['deposit_cents'], d['balance_cents'], d['paid_cents'], d['due_cents'])")" "(3500, 1750, 1750, 1750, 1750)"
has "the yes has its day" "$file" "on: \"20[0-9][0-9]-[0-9][0-9]-[0-9][0-9]\""
close

echo "-- interrupted: a second order with nothing but a name, and back, two taps each way"
file=$(order_of Philippa 01-petite)
begin_on "$file"
before=$(parts "$file")
wet 148 676; wet 640 200 # one more rose
wet $new; shot taps-leave; wet 571 409    # Keep it, and go on
first=$(cat "$file")
expect "one head more was kept" "$(parts "$file")" $((before + 1))
wet $wearer; letters high "rosalba"; wet 732 524
kept
second=$shop/orders/rosalba-petite.ron
[ -f "$second" ] || fail "the half-empty order was not kept"
lacks "the dress is still to find out" "$second" "dress:"
wet $open; shot taps-orders
wet 560 280 # the first row: where one came from
shot taps-back
[ "$(cat "$file")" = "$first" ] || fail "the first sketch is no longer as it was"
wet 148 676; wet 470 200; kept
expect "and it goes on" "$(parts "$file")" $((before + 2))
wet $open; wet 350 223; shot taps-to-ring # To ring
close

stopped_file() { # NAME
  cat >"$shop/orders/$1.ron" <<RON
(
    version: 1, wearer: "$1",
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
yes="846 688" not_now="944 688"
echo "-- an allergy: named by tapping the flower that is on the piece, seen to, and refused from the tray"
file=$(stopped_file Quiteria)
begin_on "$file"
wet $order; shot taps-allergy-asked
wet 628 560 # baby's breath
wet 951 560 # No latex
shot taps-allergy-told
wet $yes; wet $yes; kept
lacks "the flower is gone" "$file" "babys-breath\", colour"
lacks "the band is gone" "$file" 'band: "elastic'
has "it is known for good" "$file" "baby.*breath\","
count=$(placed "$file")
wet $sketch; wet 294 591; shot taps-sprigs
wet 372 676; shot taps-refused # baby's breath, the third of the sprigs
wet 640 200; kept
expect "nothing that is stopped comes onto the piece" "$(placed "$file")" "$count"
close
if command -v pdftotext >/dev/null; then
  "$binary" papers "$file" --only bench-card --into "$home/papers" >/dev/null
  pdftotext "$home"/papers/*-bench-card.pdf "$home/card.txt"
  has "the bench card warns of it" "$home/card.txt" "baby"
fi

echo "-- a left hand: the other wrist is proposed, the picture turns over, nothing else changes"
file=$(order_of Ottoline 03-full)
begin_on "$file"
kept
before=$(places "$file") mark_before=$(mark "$file") price_before=$(price "$file")
wet $order; wet 149 385; kept
has "the hand is known" "$file" "handed: left"
has "nothing is done before a yes" "$file" "side: left"
wet $yes; kept
has "the other wrist" "$file" "side: right"
mirrored() { python3 -c "
import re, sys
print([(float(x), -float(y) + 0.0) for x, y in re.findall(r'\((-?[\d.]+), (-?[\d.]+)\)', sys.argv[1])])" "$1"; }
as_numbers() { python3 -c "
import re, sys
print([(float(x), float(y) + 0.0) for x, y in re.findall(r'\((-?[\d.]+), (-?[\d.]+)\)', sys.argv[1])])" "$1"; }
expect "mirrored" "$(as_numbers "$(places "$file")")" "$(mirrored "$before")"
expect "mark and price" "$(mark "$file"), $(price "$file")" "$mark_before, $price_before"
close

echo "-- hands on wheels: asked one by one, flat, without tails, higher; upper arm and lapel are left for now"
file=$(order_of Ludovic 02-classic)
begin_on "$file"
wet $right; wet $order; wet 428 434; kept
has "it is known" "$file" "pushes_chair: true"
lacks "nothing is done before a yes" "$file" "height: 30"
for _ in flat tails higher; do wet $yes; done
for _ in arm lapel; do wet $not_now; done
shot taps-wheels
kept
has "height allowed" "$file" "height: 30"
has "no tails" "$file" "tails: 0"
has "higher up the arm" "$file" "offset: 80"
has "still on the wrist" "$file" "worn: wrist"
close

echo "-- a child of six, 122 mm: years and girth tapped in; and one of two: ribbon, nothing small"
file=$(order_of Pim 02-classic)
begin_on "$file"
wet $order; wet 440 175; figures low 6 done
wet 286 513; girth_of top 1 2 2 done; shot taps-child
wet $yes; wet $yes; kept
has "six years" "$file" "kind: child(6)"
expect "width allowed" "$(limit "$file")" 48.8
has "the oval follows" "$file" "width: 48.8"
lacks "no standard elastic" "$file" 'band: "elastic-medium"'
close
file=$(order_of Juno 01-petite)
begin_on "$file"
wet $order; wet 440 175; figures low 2 done; wet $yes; shot taps-small
wet $sketch; wet 437 591 # trims
for bucket in 148 260 372 484; do wet $bucket 676; wet 640 200; done
shot taps-small-trims
kept
has "two years" "$file" "kind: child(2)"
has "tied" "$file" 'band: "ribbon-tie"'
expect "loose parts" "$(report "$file" stems "sum(l['pieces'] for l in d['lines'] if l['role'] == 'trim')")" 0
close

echo "-- two mothers: the same heads, widths of their own, an operated arm; bought together they share stems"
one=$(order_of Henrike 02-classic)
sed -i 's/side: left/side: right/; s/girth: [^,)]*/girth: 150/; s/dance: "[^"]*"/dance: "Linden wedding"/' "$one"
begin_on "$one"
wet $order; wet 279 434; wet $yes; wet $yes; kept
has "the other arm carries it" "$one" "side: left"
lacks "nothing elastic" "$one" 'band: "elastic'
close
two=$(order_of Solveig 02-classic)
sed -i 's/dance: "[^"]*"/dance: "Linden wedding"/' "$two"
begin_on "$two"
wet $order; wet 677 270; wet 286 513; girth_of top 1 7 8 done; kept
has "her dress" "$two" "sage"
expect "widths allowed" "$(limit "$one") and $(limit "$two")" "60.0 and 71.2"
expect "price of both" "$(($(price "$one") + $(price "$two")))" 5400
wet $price_place; shot taps-alone
wet 1124 551; shot taps-join # Bought with others
wet 391 235; shot taps-together # the second row: of the same wedding, like the first
differs "stems and price of all of them are told" taps-join taps-together
close

echo "-- inches and millimetres: looked at in both, five times, and the girth stays as it was tapped in"
file=$(order_of Ingunn 02-classic)
begin_on "$file"
wet $girth_above; girth_of high 6 1/4 done; kept
has "as it was tapped in" "$file" 'girth: "6 1/4"'
wet $look; shot taps-as-typed
for _ in 1 2 3 4 5; do wet 328 270; shot taps-mm; wet 380 270; shot taps-in; done
differs "another unit is seen" taps-mm taps-in
wet 255 270; wet $look; kept
has "still as it was tapped in" "$file" 'girth: "6 1/4"'
expect "width allowed" "$(limit "$file")" 63.5
wet $girth_above; girth_of high 1 . 5 5 done; shot taps-doubt; kept
expect "nothing changes before a yes" "$(report "$file" once-over "d['wrist']['girth_mm']")" 158.75
close
echo "taps: all walks done, $n_taps taps and no key"
