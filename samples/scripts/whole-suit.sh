#!/usr/bin/env bash
# Posts every part of a suit, waits for all, and leaves mold.stl, mold.3mf and report.json of each in a folder.
#   whole-suit.sh samples/heron molds
# Needs curl and jq. LAYUPMOLD is the service's address, by default the local one;
# LAYUPMOLD_KEY a key, where it asks for one.
set -euo pipefail
service=${LAYUPMOLD:-http://127.0.0.1:8080}
curl() { command curl ${LAYUPMOLD_KEY:+-H "Authorization: Bearer $LAYUPMOLD_KEY"} "$@"; }
suit=${1:?the folder with suit.json}
out=${2:?the folder for the molds}

declare -A location
names=()
while IFS=$'\t' read -r name file encoded; do
  recipe=$(base64 -d <<<"$encoded")
  names+=("$name")
  headers=$(mktemp)
  # The key makes a repeated run harmless: same part, same mold.
  key="$name-$( (cat "$suit/$file"; echo "$recipe") | sha256sum | cut -c1-32)"
  curl -sS --fail-with-body -D "$headers" -o /dev/null -H "Idempotency-Key: $key" -H 'Accept: application/json' \
    -F "part=@$suit/$file" -F "recipe=$recipe;type=application/json" "$service/v1/molds"
  location[$name]=$(tr -d '\r' <"$headers" | sed -n 's/^[Ll]ocation: *//p')
  rm -f "$headers"
  echo "$name: posted, ${location[$name]}"
done < <(jq -r '(.defaults // {}) as $d | .parts[] | [.name, .file, ($d * (.recipe // {}) | tojson | @base64)] | @tsv' \
  "$suit/suit.json")

failed=0
for name in "${names[@]}"; do
  while :; do
    state=$(curl -sS --fail-with-body -H 'Prefer: wait=20' -H 'Accept: application/json' "$service${location[$name]}")
    status=$(jq -r .status <<<"$state")
    echo "$name: $status $(jq -r '.stage // ""' <<<"$state") $(jq -r .percent <<<"$state") %"
    case $status in queued | running) continue ;; *) break ;; esac
  done
  if [ "$status" != done ]; then
    jq -r '.problem.detail // "no reason given"' <<<"$state"
    failed=1
    continue
  fi
  mkdir -p "$out/$name"
  for file in mold.stl mold.3mf report.json; do
    curl -sS --fail -o "$out/$name/$file" "$service${location[$name]}/$file"
  done
  jq -r '"  \(.body.sizeMm | map(floor) | join(" x ")) mm, \(.findings | map(select(.severity != "info")) | length) notes"' \
    "$out/$name/report.json"
done
exit $failed
