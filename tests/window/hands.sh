# What the walks through the real window share: a screen of their own, a folder of their own, and hands. To be sourced, with the binary and
# the folder for screenshots as $1 and $2.
binary=$(realpath "$1")
mkdir -p "$2"
shots=$(realpath "$2")
home=$(mktemp -d)
shop=$home/posywright/shop

fail() { echo "window: $*" >&2; [ -n "${window:-}" ] && maim -i "$window" "$shots/failed.png" || true; cat "$shots/app.log" >&2; exit 1; }
end() { kill "${app:-}" "${screen:-}" 2>/dev/null || true; wait 2>/dev/null || true; rm -rf "$home"; }
trap end EXIT

mkfifo "$home/number"
Xvfb -r -displayfd 3 -screen 0 1366x768x24 -nolisten tcp 3>"$home/number" 2>"$shots/xvfb.log" &
screen=$!
read -r number <"$home/number"
export DISPLAY=:$number

start() { # [FILE]; the first start of all begins with the sample shop
  local first=; [ $# = 0 ] && [ ! -f "$shop/shop.ron" ] && first=yes
  env -u WAYLAND_DISPLAY -u DBUS_SESSION_BUS_ADDRESS HOME="$home" XDG_DATA_HOME="$home" XDG_RUNTIME_DIR="$home" \
    LIBGL_ALWAYS_SOFTWARE=1 "$binary" "$@" >"$shots/app.log" 2>&1 &
  app=$!
  window=$(timeout 60 xdotool search --sync --onlyvisible --name '^Posywright$' | head -1)
  [ -n "$window" ] || fail "no window came up"
  xdotool windowfocus --sync "$window"
  sleep 1.5
  if [ -n "$first" ]; then begin; sleep 1; fi
}
begin() { key Return; } # the sample shop
shot() { sleep 0.4; maim -i "$window" "$shots/$1.png"; }
key() { for k in "$@"; do xdotool key "$k"; sleep 0.12; done; }
tap() { xdotool mousemove --window "$window" "$1" "$2"; sleep 0.1; xdotool mousedown 1; sleep 0.06; xdotool mouseup 1; sleep 0.25; }
drag() {
  xdotool mousemove --window "$window" "$1" "$2"; sleep 0.1; xdotool mousedown 1; sleep 0.1
  for i in 1 2 3 4 5 6; do
    xdotool mousemove --window "$window" $(($1 + ($3 - $1) * i / 6)) $(($2 + ($4 - $2) * i / 6)); sleep 0.06
  done
  xdotool mouseup 1; sleep 0.25
}
write() { xdotool type --delay 60 "$1"; sleep 0.2; }
leave() { # closes the window; waits for it to end well
  key ctrl+q
  for _ in $(seq 60); do kill -0 "$app" 2>/dev/null || { window=; wait "$app" || fail "it ended with $?"; return 0; }; sleep 0.1; done
  fail "it did not close"
}
# a figure out of a report: report FILE COMMAND PYTHON-EXPRESSION-ON-d
report() { "$binary" "$2" "$1" --json | python3 -c "import json,sys; d=json.load(sys.stdin); print($3)"; }
expect() { [ "$2" = "$3" ] || fail "$1: expected $3, found $2"; echo "ok  $1: $2"; }
holds() { python3 -c "import sys; sys.exit(0 if ($2) else 1)" || fail "$1: $2"; echo "ok  $1: $2"; }
order_of() { # NAME SAMPLE: an order of that name, made from a sample
  sed "s/wearer: \"[^\"]*\"/wearer: \"$1\"/" "$shop/orders/$2.ron" >"$shop/orders/$1.ron"
  grep -q "wearer: \"$1\"" "$shop/orders/$1.ron" || sed -i "s/version: 1,/version: 1, wearer: \"$1\",/" "$shop/orders/$1.ron"
  echo "$shop/orders/$1.ron"
}
