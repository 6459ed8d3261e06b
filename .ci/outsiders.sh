#!/usr/bin/env bash
# Installs the independent programs that tests hold results against, where they are missing.
set -euo pipefail
cd "$(dirname "$0")"
missing=()
command -v node >/dev/null || missing+=(nodejs)
command -v npm >/dev/null || missing+=(npm)
command -v chromium >/dev/null || missing+=(chromium)
command -v admesh >/dev/null || missing+=(admesh)
if [ ${#missing[@]} -gt 0 ]; then
  apt-get update -qq
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
fi
[ -d node_modules/gltf-validator ] && [ -d node_modules/playwright-core ] || npm ci --no-audit --no-fund --silent
