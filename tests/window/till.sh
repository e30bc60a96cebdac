#!/usr/bin/env bash
# Walks what else the counter needs in the real window under Xvfb: tax on top and tax in the price, whom to ring, what the bench is
# warned of, names with accents and of other scripts, a photo of the dress pasted from elsewhere. Asserts on what was kept on disk and
# on papers. People and dances are invented for this walk.
# usage: till.sh BINARY FOLDER_FOR_SCREENSHOTS
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
source "$here/hands.sh"

has() { # a slow machine may still be writing
  for _ in $(seq 40); do grep -q "$3" "$2" && break; sleep 0.25; done
  grep -q "$3" "$2" || fail "$1: no $3 in $(cat "$2")"; echo "ok  $1: $3"
}
differs() { [ "$(identify -format '%#' "$shots/$2.png")" != "$(identify -format '%#' "$shots/$3.png")" ] || fail "$1"; echo "ok  $1"; }
asked() { report "$1" quote "$2"; }
press() { tap "$@"; sleep 0.6; }
slowly() { for k in "$@"; do key "$k"; sleep 0.5; done; }
kept() { # waits until it is on the disk
  touch "$home/before"; sleep 0.7; key ctrl+s
  for _ in $(seq 40); do [ -z "$(find "$shop/orders" -name '*.ron' -newer "$home/before")" ] || return 0; sleep 0.25; done
  fail "it was not kept"
}
order_of() { # NAME SAMPLE: an order of that name, made from a sample
  sed "s/wearer: \"[^\"]*\"/wearer: \"$1\"/" "$shop/orders/$2.ron" >"$shop/orders/$1.ron"
  echo "$shop/orders/$1.ron"
}
papers_of() { # FILE KIND: the words of a paper
  rm -rf "$home/papers"
  "$binary" papers "$1" --only "$2" --into "$home/papers" >/dev/null
  pdftotext "$home"/papers/*.pdf - | tr '\n' ' ' >"$home/paper.txt"
}

# Places on the window of 1366 x 740.
tax="857 478" on_top="561 526" in_price="678 526" ring="350 223" this_dress="463 611"

start; leave # lays the sample shop out

echo "-- tax: on top of the price, and in the price"
file=$(order_of Ermentrude 02-classic)
start "$file"
slowly x x y 5
press $tax; key ctrl+a; write 8.25; key Return; press $on_top
slowly Escape Escape i; shot till-tax-on-top
kept
expect "Classic and boutonniere, tax on top" "$(asked "$file" "(d['subtotal_cents'], d['tax']['cents'], d['total_cents'])")" "(3500, 289, 3789)"
key F2; shot till-tax-client; key F2
differs "the client sees the tax and nothing of the shop's own" till-tax-on-top till-tax-client
leave
file=$(order_of Walburga 02-classic)
start "$file"
slowly y 5
press $tax; key ctrl+a; write 20; key Return; press $in_price
slowly Escape Escape i; shot till-tax-in-price
expect "a Classic at 27, tax in it" "$(asked "$file" "(d['total_cents'], d['tax']['net_cents'], d['tax']['cents'])")" "(2700, 2250, 450)"
slowly Escape y 5
press $tax; key ctrl+a; write 0; key Return
expect "and without" "$(asked "$file" "d['tax']")" None
leave

echo "-- whom to ring: how many, what for, and the order at once"
file=$(order_of Kunigunde 02-classic)
sed -i 's/^    wearer: "Kunigunde",/&\n    phone: "555 0142", wanted: "9 May 2026, 2 pm", allergies: ["baby\x27s breath"],/' "$file"
start
key ctrl+o; sleep 1; shot till-orders
press $ring; shot till-to-ring
differs "only those that wait are shown" till-orders till-to-ring
press 600 170; write "kunigunde"; slowly Tab Tab Return; sleep 1.5; shot till-rung

key d; sleep 1; key t; write "teal"; slowly Return; kept
has "what she said when she was rung" "$file" "teal"
key Escape; key ctrl+o; sleep 1; shot till-one-less
differs "one less to ring" till-orders till-one-less
key Escape
leave

if command -v pdftotext >/dev/null; then
  echo "-- the bench is warned of what does not agree and of what nobody has confirmed"
  papers_of "$file" bench-card
  has "what does not agree" "$home/paper.txt" "ALLERGY: baby.s breath"
  file=$(order_of Radegund 02-classic)
  papers_of "$file" bench-card
  has "what nobody has confirmed" "$home/paper.txt" "issing: .*dress colour"
fi

echo "-- names with accents, and of other scripts"
cat >"$shop/orders/names.ron" <<'RON'
(
    version: 1, wearer: "Zsófia Őry-Németh", dance: "Nguyễn Thị Bích Đào and Þórdís", place: "Łucja Żółkiewska",
    partner: "Любовь Шевченко", payer: "Αλεξάνδρα", phone: "O'Brien-de la Cruz",
    wrist: (side: left, girth: 150, measured: tape), size: "Classic", piece: (oval: (length: 90, width: 54)),
)
RON
start
key ctrl+o; sleep 1; write "ory"; shot till-names-found
slowly Tab Tab Return; sleep 1.5; key q; sleep 1; shot till-names
key i; sleep 1; shot till-names-price
key Escape; slowly n; kept # whoever was found is in front: the file that was kept is hers
[ -n "$(find "$shop/orders/names.ron" -newer "$home/before")" ] || fail "typing ory did not find her"
echo "ok  typing ory finds Őry"
leave
if command -v pdftotext >/dev/null; then
  papers_of "$shop/orders/names.ron" bench-card
  has "her name on paper" "$home/paper.txt" "Zsófia Őry-Németh"
fi

if command -v xclip >/dev/null; then
  echo "-- a photo of the dress, copied elsewhere and pasted on the page Colour"
  convert -size 480x640 gradient:'#8b1427'-'#a02038' "$home/dress.png"
  xclip -selection clipboard -t image/png -i "$home/dress.png" >/dev/null 2>&1
  file=$(order_of Ethelind 01-petite)
  start "$file"
  key d; sleep 1; shot till-no-photo
  key ctrl+v; sleep 3; shot till-pasted
  differs "the photo is there" till-no-photo till-pasted
  press $this_dress; shot till-dress; kept
  colour=$(grep -o 'hex: "#[0-9a-f]*' "$file" | tail -c 7)
  holds "the red of the photo" "abs(0x${colour:0:2} - 0x96) < 24 and abs(0x${colour:2:2} - 0x1a) < 24 and abs(0x${colour:4:2} - 0x30) < 24"
  leave
else
  echo "window: a photo was not pasted: there is no xclip" >&2
fi
echo "till: all walks done"
