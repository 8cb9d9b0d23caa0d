#!/usr/bin/env bash
# Installs what `make verify` needs and is missing, from Debian, and the rules of
# accessibility from npm. Fails when something cannot be had: a check that did not
# run is not a check that passed.
set -euo pipefail
cd "$(dirname "$0")"

# package: program that must then be there, or python3 module for "python:"
need=(
  librsvg2-bin:rsvg-convert
  poppler-utils:pdftocairo
  mupdf-tools:mutool
  ghostscript:gs
  qpdf:qpdf
  libxml2-utils:xmllint
  gdal-bin:ogr2ogr
  chromium:chromium
  npm:npm
  python3:/usr/bin/python3
)
# Debian's own python3: only that one has Debian's modules.
have_ezdxf() { /usr/bin/python3 -c 'import ezdxf' 2>/dev/null; }

missing=()
for n in "${need[@]}"; do
  command -v "${n#*:}" >/dev/null || missing+=("${n%%:*}")
done
have_ezdxf || missing+=(python3-ezdxf)

if ((${#missing[@]})); then
  echo "verify: installing ${missing[*]}"
  sudo=
  [ "$(id -u)" = 0 ] || sudo=sudo
  $sudo apt-get update -qq
  DEBIAN_FRONTEND=noninteractive $sudo apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
fi

for n in "${need[@]}"; do
  command -v "${n#*:}" >/dev/null || { echo "verify: ${n#*:} is missing (Debian package ${n%%:*})" >&2; exit 1; }
done
have_ezdxf || { echo "verify: python3-ezdxf is missing" >&2; exit 1; }

# The version and checksum are those of package-lock.json.
if ! cmp -s package-lock.json node_modules/installed; then
  npm ci --ignore-scripts --no-audit --no-fund --loglevel=error
  cp package-lock.json node_modules/installed
fi
[ -s node_modules/axe-core/axe.min.js ] || { echo "verify: axe-core is missing (npm)" >&2; exit 1; }
