#!/usr/bin/env bash
# What other programs make of the papers: qpdf reads them without a complaint, poppler finds every face embedded and every
# name and shows the page that the PNG beside it shows, and at 600 dpi the bar of the template measures 100.0 +- 0.1 mm. Usage: check.sh BINARY WORKFOLDER
set -euo pipefail
binary=$(realpath "$1")
work=$2
here=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$work"
work=$(cd "$work" && pwd)

say() { printf '%s\n' "$*"; }
fail() { say "papers: $*"; exit 1; }

names=("Zsófia Őry-Németh" "Łucja Żółkiewska" "Nguyễn Thị Bích Đào" "Þórdís" "O'Brien-de la Cruz")

# Two orders to a name: a piece that is only sketched, and one that was agreed and paid for, with a boutonniere.
mkdir -p "$work/orders"
for i in "${!names[@]}"; do
  sed "s|wearer: \"[^\"]*\"|wearer: \"${names[$i]}\", notes: \"Goes with ${names[$i]}.\"|" \
    "$here/../../samples/orders/01-petite.ron" >"$work/orders/name-$i.ron"
  sed "s|wearer: \"Ines\"|wearer: \"${names[$i]}\"|" "$here/../files/order-1-every-field.ron" >"$work/orders/agreed-$i.ron"
done

samples=("$here"/../../samples/orders/{04-too-wide,06-empty,08-boutonniere,09-showpiece}.ron)
make_papers() {
  "$binary" papers "$work"/orders/*.ron "${samples[@]}" --into "$1" --paper "$2" >/dev/null 2>"$work/told.txt" \
    || fail "the papers were not made: $(cat "$work/told.txt")"
}

make_papers "$work/again" a4
for paper in a4 letter; do
  make_papers "$work/$paper" "$paper"
  pdfs=("$work/$paper"/*.pdf)
  [ "${#pdfs[@]}" -eq 128 ] || fail "$paper: only ${#pdfs[@]} papers were made"
  for pdf in "${pdfs[@]}"; do
    qpdf --check "$pdf" >"$work/qpdf.txt" 2>&1 || fail "qpdf complains of $pdf: $(cat "$work/qpdf.txt")"
    # Every face is embedded, a subset, and maps to letters (columns emb, sub, uni).
    pdffonts "$pdf" | awk 'NR > 2 && !/ yes yes yes / { bad = 1 } END { exit bad || NR < 3 }' \
      || fail "a face of $pdf is not embedded: $(pdffonts "$pdf")"
    pdfinfo "$pdf" >"$work/info.txt"
    case $paper in
      a4) grep -q 'Page size: *595.276 x 841.89 pts (A4)' "$work/info.txt" || fail "$pdf is not A4" ;;
      letter) grep -q 'Page size: *612 x 792 pts (letter)' "$work/info.txt" || fail "$pdf is not Letter" ;;
    esac
    grep -q '^Title: *.' "$work/info.txt" || fail "$pdf has no title"
    ! grep -q '^CreationDate' "$work/info.txt" || fail "$pdf has a date"
  done
  for i in "${!names[@]}"; do
    for order in name agreed; do
      for pdf in "$work/$paper/$order-$i"-*.pdf; do
        pdftotext "$pdf" - | tr '\n' ' ' | grep -qF "${names[$i]}" || fail "${names[$i]} is not found in $pdf"
      done
    done
  done
  # The client's papers by another reader's eyes: one page each, and nothing that is the shop's own.
  for pdf in "$work/$paper"/*-{client,quote-slip,agreed-sheet,receipt}.pdf; do
    pdfinfo "$pdf" | grep -q '^Pages: *1$' || fail "$pdf has more than one page"
    ! pdftotext "$pdf" - | grep -qiE 'cost|supplier|margin|wholesale|mark|a neighbour|Tidewater|Sablecroft|Greenlane' \
      || fail "$pdf says what is the shop's own"
  done
  # One paper size to a kind: reading a PNG in plain Python takes its time.
  case $paper in a4) kinds="quote-slip receipt" ;; *) kinds=agreed-sheet ;; esac
  for kind in $kinds; do
    pdftoppm -r 150 -gray -f 1 -l 1 "$work/$paper/agreed-0-$kind.pdf" "$work/page"
    python3 "$here/same_page.py" "$work"/page*.pgm "$work/$paper/agreed-0-$kind.png" || fail "$paper: $kind as PNG"
    rm -f "$work"/page*.pgm
  done
  pdftoppm -r 600 -gray -f 1 -l 1 "$work/$paper/09-showpiece-template.pdf" "$work/bar-$paper"
  python3 "$here/measure_bar.py" "$work"/bar-"$paper"*.pgm 600 || fail "$paper: the bar is not 100 mm long"
  rm -f "$work"/bar-"$paper"*.pgm
done
diff -r "$work/a4" "$work/again" >/dev/null || fail "two runs differ"
say "papers: ${#pdfs[@]} PDFs in each of two paper sizes are sound, embedded, searchable and the same twice"
