#!/usr/bin/env bash
# A study in four parts under GNU parallel, merged, beside the same study in one run: the bytes must be the same.
#   tests/recipes/parallel.sh [PROGRAM]
# It needs the Debian package parallel, and makes everything else in a folder of its own.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
costcard=$(realpath "${1:-$here/../../target/release/costcard}")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
cp "$here/study.toml" "$here/hole.toml" .

"$costcard" study study.toml --out whole

# The recipe: a part for each line, two at a time; one that is ended is started again, up to three times, and goes on.
parallel --jobs 2 --retries 3 --will-cite \
    "$costcard" study study.toml --out part-{} --part {}/4 ::: 1 2 3 4
"$costcard" study --merge part-1 part-2 part-3 part-4 --out merged

diff -r whole merged
echo "four parts under GNU parallel: the bytes of a single run"
