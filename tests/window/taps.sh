#!/usr/bin/env bash
# Walks the counter in the real window under Xvfb by taps alone: no key is pressed from the first start to the last. Every tap is that
# of a wet finger: it lasts 0.3 s and slips by 9 points. Words and figures are tapped in on the board on the screen. Asserts on what was
# kept on disk. People and dances are invented for this walk.
# usage: taps.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

n_taps=0
wet() { # X Y: a wet finger, slipping a little another way each time
  local ways=("9 0" "0 9" "-9 0" "0 -9" "6 6" "-6 6")
  local slip=(${ways[$((n_taps % 6))]})
  n_taps=$((n_taps + 1))
  xdotool mousemove --window "$window" "$1" "$2"; sleep 0.1; xdotool mousedown 1; sleep 0.15
  xdotool mousemove --window "$window" $(($1 + slip[0])) $(($2 + slip[1])); sleep 0.15; xdotool mouseup 1; sleep 0.45
}
key() { fail "a key was pressed: $*"; }
write() { fail "a key was pressed: $*"; }
begin() { wet 525 424; } # Look round in the sample shop
close() { # as the window's frame does
  python3 "$here/close.py" "$window"
  for _ in $(seq 60); do kill -0 "$app" 2>/dev/null || { window=; wait "$app" || fail "it ended with $?"; return 0; }; sleep 0.1; done
  fail "it did not close"
}
has() { grep -q "$3" "$2" || fail "$1: no $3 in $(cat "$2")"; echo "ok  $1: $3"; }
lacks() { if grep -q "$3" "$2"; then fail "$1: $3 in $(cat "$2")"; fi; echo "ok  $1: no $3"; }
order_of() { # NAME SAMPLE: an order of that name, made from a sample
  sed "s/wearer: \"[^\"]*\"/wearer: \"$1\"/" "$shop/orders/$2.ron" >"$shop/orders/$1.ron"
  grep -q "wearer: \"$1\"" "$shop/orders/$1.ron" || sed -i "s/version: 1,/version: 1, wearer: \"$1\",/" "$shop/orders/$1.ron"
  echo "$shop/orders/$1.ron"
}
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
kept() { wet $keep; sleep 0.7; }

# The board: letters under the pages (low) or under the sheet (high); figures for a field in the lower half stand at the top.
letters() { # low|high WORDS, in small letters: names get their capitals by themselves; ~ goes to the accents and back
  local row=524 words=$2 rows=("1234567890" "qwertyuiop" "asdfghjkl'" "zxcvbnm,.-") n letter line before
  [ "$1" = high ] || row=702
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

start
wet $board; shot taps-board-on # the keys come from now on, and at every start
close

echo "-- a whole order: name, girth, three heads, kept"
start "$shop/orders/06-empty.ron"
wet $new
wet $wearer; letters high "mina o'dea"; shot taps-letters; wet 732 524
wet $girth_above; girth_of high 1 3 5; shot taps-figures; girth_of high done
wet 148 676
wet $cx $((cy - 110)); wet $cx $cy; wet $cx $((cy + 110))
kept; shot taps-whole
mina=$(grep -l "Mina O'Dea" "$shop"/orders/*.ron) || fail "the order was not kept under its name"
expect "three heads" "$(report "$mina" stems "d['lines'][0]['pieces'] - d['lines'][0]['to_place']")" 3
expect "width allowed" "$(limit "$mina")" 54.0
expect "price" "$(price "$mina")" 2000
close
