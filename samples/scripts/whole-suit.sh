#!/usr/bin/env bash
# Posts a suit in one go, shows its progress, and leaves molds, reports, contents list and summary in a folder.
#   whole-suit.sh samples/heron molds [manifest]
# The manifest is suit.json or suit.csv next to the meshes; suit.json by default. Ends with 1 if a part has no mold.
# Needs curl, jq and the JDK's jar. LAYUPMOLD is the service's address, by default the local one;
# LAYUPMOLD_KEY a key, where it asks for one.
set -euo pipefail
service=${LAYUPMOLD:-http://127.0.0.1:8080}
curl() { command curl ${LAYUPMOLD_KEY:+-H "Authorization: Bearer $LAYUPMOLD_KEY"} "$@"; }
suit=${1:?the folder with the meshes and the manifest}
out=${2:?the folder for the molds}
manifest=${3:-suit.json}

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
shopt -s nullglob nocaseglob
meshes=$(cd "$suit" && printf '%s\n' *.stl *.obj *.ply *.3mf)
(cd "$suit" && jar -cMf "$work/suit.zip" $meshes "$manifest")

# The key makes a repeated run harmless: same files, same suit.
key="suit-$(cd "$suit" && cat $meshes "$manifest" | sha256sum | cut -c1-32)"
status=$(curl -sS -o "$work/answer" -D "$work/headers" -w '%{http_code}' -H "Idempotency-Key: $key" \
  -H 'Accept: application/json' -F "suit=@$work/suit.zip;type=application/zip" "$service/v1/batches")
if [ "$status" != 202 ] && [ "$status" != 200 ]; then
  jq -r '"refused: \(.detail)", (.errors[]? | "  \(.pointer): \(.detail)")' "$work/answer" >&2
  exit 1
fi
location=$(tr -d '\r' <"$work/headers" | sed -n 's/^[Ll]ocation: *//p')
echo "posted, $location"

seen=
while :; do
  state=$(curl -sS --fail-with-body -H 'Accept: application/json' "$service$location")
  line=$(jq -r '"\([.parts[] | select(.status == "done")] | length) of \(.parts | length) molds, \(.percent) %" +
    ([.parts[] | select(.status == "running") | ", \(.name): \(.stage // "start")"] | join(""))' <<<"$state")
  if [ "$line" != "$seen" ]; then
    printf '%s  %s\n' "$(date +%T)" "$line"
    seen=$line
  fi
  case $(jq -r .status <<<"$state") in done | incomplete) break ;; esac
  sleep 1
done

jq -r '.parts[] | "\(.name): \(.status)" + (if .likeness then ", \(.likeness.kind) as \(.likeness.part)" else "" end) +
  (if .note then ", \(.note)" else "" end) + (if .problem then ", \(.problem.detail)" else "" end)' <<<"$state"
mkdir -p "$out"
curl -sS --fail -o "$work/bundle.zip" "$service$location/bundle.zip"
(cd "$out" && jar -xf "$work/bundle.zip")
jq -r '"\(.pieces) pieces from \(.molds) molds: \(.filament | map("\(.massG | round) g \(.material)") | join(", ")), " +
  "\(.printHours * 10 | round / 10) h of printing, " +
  "\(.cloths | map("\(.areaM2 * 100 | round / 100) m² \(.weave) \(.arealWeightGsm) g/m²") | join(", ")), " +
  "\(.resinG | round) g resin", (.attention[] | "look at \(.part): \(.reason)")' "$out/summary.json"
[ "$(jq -r .status <<<"$state")" = done ]
