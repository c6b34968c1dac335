#!/usr/bin/env bash
# Ratios of CPU seconds (user + system) between GRASS (Debian's grass-core) and this engine, on one .hgt tile.
#   tests/Glowcast.Benchmarks/against-grass.sh path/to/N44W072.hgt
# Run it on an otherwise idle machine. Every GRASS job runs three times, ours seven times after a warm-up; medians count.
# r.horizon and r.viewshed include their reading and writing of maps, some tenths of a second; ours start from heights in memory.
set -eu -o pipefail
tile=$(realpath "${1:?usage: against-grass.sh tile.hgt}")
here=$(cd "$(dirname "$0")" && pwd)

if ! command -v grass >/dev/null || ! command -v gdal_translate >/dev/null; then
  as_root=$([ "$(id -u)" = 0 ] || echo sudo)
  $as_root apt-get update -qq && $as_root apt-get install -y -qq grass-core gdal-bin >/dev/null
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

dotnet build -c Release "$here" --nologo -v quiet >"$work/build.log" || { cat "$work/build.log"; exit 1; }
dotnet "$here"/bin/Release/net10.0/Glowcast.Benchmarks.dll against "$tile" >"$work/ours"
value() { sed -n "s/^$1=//p" "$work/ours"; }

gdal_translate -q "$tile" "$work/tile.tif"
grass -c "$work/tile.tif" "$work/db" -e >/dev/null 2>&1
in_grass() { grass "$work/db/PERMANENT" --exec "$@"; }
in_grass r.in.gdal -o input="$work/tile.tif" output=dem >/dev/null 2>&1
in_grass g.region raster=dem >/dev/null 2>&1

# The median of three runs, in CPU seconds of the module alone.
cpu() {
  for _ in 1 2 3; do
    in_grass bash -c 'TIMEFORMAT="cpu %U %S"; time "$@" >/dev/null 2>/dev/null' job "$@" 2>&1 | awk '$1 == "cpu" { print $2 + $3 }'
  done | sort -n | sed -n 2p
}
horizon=$(cpu r.horizon elevation=dem direction=120 output=h --overwrite)
viewshed=$(cpu r.viewshed -c -r input=dem output=vs coordinates="$(value lookout_lon),$(value lookout_lat)" observer_elevation=2 \
  target_elevation=0 max_distance=-1 refraction_coeff=0.13 memory=2000 --overwrite)

in_grass r.slope.aspect elevation=dem slope=slope aspect=aspect >/dev/null 2>&1
sun=$(cpu r.sun elevation=dem slope=slope aspect=aspect incidout=incidence day=45 time=8.5 nprocs=1 --overwrite)

awk -v h="$horizon" -v sun="$sun" -v first="$(value first_chart_s)" -v second="$(value second_chart_s)" -v minutes="$(value minutes)" -v patches="$(value patches)" -v v="$viewshed" -v posts="$(value posts)" -v whole="$(value sweep_whole_tile_s)" -v places="$(value visible_places)" \
  -v fan="$(value fan_s)" -v ray="$(value ray_s)" -v surface="$(value visible_surface_s)" 'BEGIN {
  printf "%-58s %10s %10s %8s\n", "work (CPU seconds)", "GRASS", "ours", "ratio"
  printf "%-58s %10.3f %10.4f %8.1f\n", "whole-tile horizon, one direction", h, whole, h / whole
  theirs = h / posts * places * 360
  printf "%-58s %10.1f %10.2f %8.1f\n", places " visible places x 360 azimuths", theirs, fan, theirs / fan
  printf "%-58s %10.1f %10.2f %8.1f\n", "the same, exact rays", theirs, ray * places * 360, theirs / (ray * places * 360)
  printf "%-58s %10.3f %10.4f %8.1f\n", "visible surface, 360 degrees, columns of 0.05 degrees", v, surface, v / surface
  printf "%-58s %10.0f %10.3f %8.0f\n", "light on 120 degrees, " patches " patches, " minutes " minutes, with table", sun * minutes, first, sun * minutes / first
  printf "%-58s %10.3f %10.3f %8.1f\n", "the same for a second date, against the first", first, second, first / second
}'

echo
echo "The tile beside mirror images of itself, and at a third of its step; CPU seconds, and the peak memory of the process:"
echo "tiles  rows     Mposts  Mvisible  surface  patches   chart direction     MB"
for size in "1 1" "2 1" "4 1" "2 3"; do
  dotnet "$here"/bin/Release/net10.0/Glowcast.Benchmarks.dll growth "$tile" $size
done
