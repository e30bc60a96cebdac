#!/usr/bin/env bash
# Makes the pictures of this folder and of assets/pictures with the program's own commands: make.sh target/release/posywright
set -euo pipefail
program=$(realpath "${1:?which program}")
cd "$(dirname "$0")"

gallery() { "$program" picture "$1.ron" --to "$1.png" --width-px 420 --skin "$2" --dress "$3"; }
gallery petite fair '#141216'
gallery classic olive '#e6d2b3'
gallery full brown '#1b2a4a'
gallery orchid deep '#dfe7dc'

to=../pictures
orders=../../samples/orders
"$program" picture {petite,classic,full,orchid}.ron --to "$to/gallery.png" --width-px 1100 \
  --skin fair --skin olive --skin brown --skin deep --dress '#141216' --dress '#e6d2b3' --dress '#1b2a4a' --dress '#dfe7dc'
"$program" picture "$orders"/{02-classic,09-showpiece,07-orchid-classic}.ron --to "$to/from-the-side.png" --width-px 1100 --view side \
  --skin fair --skin brown --skin olive
"$program" picture "$orders/09-showpiece.ron" --to "$to/showpiece.png" --width-px 640 --skin warm
"$program" forms --to "$to/forms.png" --width-px 1200
