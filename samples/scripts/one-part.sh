#!/usr/bin/env bash
# One part in, one mold out.
#   one-part.sh part.stl mold.stl [recipe.json]
# LAYUPMOLD is the service's address, by default the local one; LAYUPMOLD_KEY a key, where it asks for one.
set -euo pipefail
service=${LAYUPMOLD:-http://127.0.0.1:8080}
curl() { command curl ${LAYUPMOLD_KEY:+-H "Authorization: Bearer $LAYUPMOLD_KEY"} "$@"; }
part=${1:?a mesh file: STL, OBJ, PLY or 3MF}
mold=${2:?where to write the mold}
recipe=${3:-}

case $mold in
  *.3mf) accept=model/3mf ;;
  *) accept=model/stl ;;
esac
form=(-F "part=@$part")
if [ -n "$recipe" ]; then
  form+=(-F "recipe=<$recipe;type=application/json")
fi

answer=$(mktemp)
trap 'rm -f "$answer"' EXIT
status=$(curl -sS "${form[@]}" -H "Accept: $accept" -o "$answer" -w '%{http_code}' "$service/v1/molds")
if [ "$status" != 200 ]; then
  echo "no mold (HTTP $status):" >&2
  cat "$answer" >&2
  echo >&2
  exit 1
fi
cp "$answer" "$mold"
echo "$mold: $(wc -c <"$mold") bytes"
