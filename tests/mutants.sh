#!/usr/bin/env bash
# Puts one small fault after another into what is acted on, and runs the tests below the window against each. What no test
# sees is listed at the end; of all faults that compile at most 5 in 100 may stay unseen. Not part of CI: a whole folder takes hours.
#
#   tests/mutants.sh [--quick] [--shard K/N] [--list] FOLDER...
#
#   FOLDER       once_over, paperwork, book, units; without one, all four
#   --quick      only the tests beside the code of the folder, not those of others nor in tests/all
#   --shard K/N  every N-th fault, from the K-th: a sample that is the same each time
#   --list       names the faults and runs nothing
#
# Needs cargo-mutants (cargo install cargo-mutants --locked).
set -eo pipefail
cd "$(dirname "$0")/.."

folders=() options=() tests=() quick=
while [ $# -gt 0 ]; do
    case $1 in
        --quick) quick=1 ;;
        --shard) options+=(--shard "$2"); shift ;;
        --list) options+=(--list) ;;
        -*) sed -n '2,13s/^# \{0,1\}//p' "$0"; exit 2 ;;
        *) folders+=("$1") ;;
    esac
    shift
done
[ ${#folders[@]} -gt 0 ] || folders=(once_over paperwork book units)
for folder in "${folders[@]}"; do
    [ -d "src/$folder" ] || { echo "src/$folder is no folder"; exit 2; }
    options+=(--file "src/$folder/**/*.rs" --file "src/$folder/*.rs")
done
[ -z "$quick" ] || tests=(-- --lib -- "${folders[@]/%/::}")

# Without optimising a fault compiles several times faster, and most tests are short.
export CARGO_PROFILE_DEV_OPT_LEVEL=0 CARGO_PROFILE_DEV_DEBUG=0 CARGO_PROFILE_TEST_OPT_LEVEL=0 CARGO_PROFILE_TEST_DEBUG=0
out=target/mutants
mkdir -p "$out"
status=0
cargo mutants --no-default-features --jobs 1 --no-shuffle --sharding round-robin --minimum-test-timeout 120 --output "$out" \
    "${options[@]}" "${tests[@]}" || status=$?
# 2: some faults were not seen; 3: some ran too long, which is seeing them.
case $status in 0 | 2 | 3) ;; *) exit "$status" ;; esac
[ -f "$out/mutants.out/caught.txt" ] || exit 0
count() { wc -l <"$out/mutants.out/$1.txt"; }
seen=$(($(count caught) + $(count timeout)))
unseen=$(count missed)
echo "seen $seen, unseen $unseen, did not compile $(count unviable)"
cat "$out/mutants.out/missed.txt"
[ $((100 * unseen)) -le $((5 * (seen + unseen))) ]
