#!/usr/bin/env bash
# What takes too long for every change: the release build, its walk through the real window, and made-up cases by the thousand.
# usage: tests/long.sh [CASES]
set -euo pipefail
cd "$(dirname "$0")/.."
PROPTEST_CASES=${1:-4096} cargo test --no-default-features --test all
cargo build --release
bash tests/window/walk.sh target/release/posywright tests/window/shots
bash tests/papers/check.sh target/release/posywright "$(mktemp -d)"
