#!/bin/sh
# Reviews a branch on any runner: what it changes in the glass since it left BASE.
#
#   review.sh BASE [HEAD]      BASE: the branch that it is to be merged into (origin/main)
#
# Writes review.md (for a comment), review.html (to keep) and review.json (for tools) to
# WASHLINE_OUT (the working directory unless said) and the review itself to standard output.
# WASHLINE_FAIL_ON says what fails the run: new-findings (unless said), allergens, any, or never.
# Exit status: 0 fine, 1 what WASHLINE_FAIL_ON says was found, 2 the review could not be made.
set -eu

if [ "$#" -lt 1 ] || [ "$#" -gt 2 ]; then
    echo "usage: review.sh BASE [HEAD]" >&2
    exit 2
fi
base=$1
head=${2:-HEAD}
out=${WASHLINE_OUT:-.}
fail_on=${WASHLINE_FAIL_ON:-new-findings}

mkdir -p "$out"
set -- review --merge-base "$base" "$head" \
    --output text --output "markdown=$out/review.md" \
    --output "html=$out/review.html" --output "json=$out/review.json"
if [ "$fail_on" != never ]; then
    set -- "$@" --fail-on "$fail_on"
fi
exec washline "$@"
