#!/bin/bash
# Puts the service with the demo's grid under load, and says what came of it: throughput, p99, errors, memory.
# Needs wrk (Debian: apt-get install wrk) and curl. Usage: tests/load/under-load.sh [seconds per part]
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-10}
work=$(mktemp -d)
trap 'kill "${service:-}" "${others[@]}" 2>/dev/null || true; rm -rf "$work"' EXIT
others=()

dotnet build -c Release -v q src/Glowcast.Cli >/dev/null
dotnet src/Glowcast.Cli/bin/Release/net10.0/glowcast.dll serve --urls http://127.0.0.1:0 --data "$work/data" --grid terrain-samples/*.hgt >"$work/out" 2>"$work/err" &
service=$!
until address=$(grep -o 'http://127[^ ]*[0-9]' "$work/out"); do kill -0 $service; sleep 0.2; done

plan=terrain-samples/demo-plan.json
resident() { awk '/VmRSS/ { printf "%d MB", $2 / 1024 }' /proc/$service/status; }
post() { curl -sS -o "$1" -D "$work/headers" -H 'Content-Type: application/json' --data-binary @"$2" "$address/api/forecasts"; }

post "$work/forecast.json" "$plan"
forecast=$(awk 'tolower($1) == "content-location:" { print $2 }' "$work/headers" | tr -d '\r')
size=$(stat -c %s "$work/forecast.json")
# The page's file nearest in size stands for a static file of the same size; both are counted in bytes too.
static=$(find src/Glowcast.Server/wwwroot -type f -printf '%s %P\n' | awk -v size="$size" '{ d = $1 > size ? $1 - size : size - $1; if (best == "" || d < best) { best = d; name = $2 } } END { print name }')

cat >"$work/report.lua" <<'LUA'
done = function(summary, latency)
  local e = summary.errors
  print(string.format("%-18s %8.0f/s %8.2f MB/s  p99 %8.1f ms  errors %d", os.getenv("PART"), summary.requests / summary.duration * 1e6,
    summary.bytes / summary.duration, latency:percentile(99) / 1000, e.connect + e.read + e.write + e.status + e.timeout))
end
LUA
cat >"$work/cold.lua" <<LUA
-- Each request is a plan that nobody has asked for: another eye height.
local plan = io.open("$plan"):read("*a")
local count = 0
request = function()
  count = count + 1
  local body = plan:gsub('"eyeHeightM": [%d.]+', string.format('"eyeHeightM": %.7f', 2 + count / 1e4 + math.random() / 1e5), 1)
  return wrk.format("POST", "/api/forecasts", { ["Content-Type"] = "application/json" }, body)
end
dofile("$work/report.lua")
LUA
cat >"$work/upload.lua" <<LUA
math.randomseed(os.time())
request = function()
  local rows = {}
  for i = 1, 100 do rows[i] = string.rep(tostring(math.random(100, 2000)) .. " ", 100) end
  local body = "ncols 100\nnrows 100\nxllcenter 7\nyllcenter 46\ncellsize 0.001\n" .. table.concat(rows, "\n") .. "\n"
  return wrk.format("POST", "/api/grids?name=made.asc", { ["Content-Type"] = "application/octet-stream" }, body)
end
dofile("$work/report.lua")
LUA

measure() { PART=$1 wrk -t1 -c"$2" -d"${seconds}s" --timeout 60s -s "$3" "$4" | grep errors; }

echo "forecast of $size bytes at $forecast, static file $static of $(stat -c %s "src/Glowcast.Server/wwwroot/$static") bytes; resident $(resident)"
for turn in 1 2; do
  measure "static file" 8 "$work/report.lua" "$address/$static"
  measure "cached forecast" 8 "$work/report.lua" "$address$forecast"
done
measure "health, idle" 2 "$work/report.lua" "$address/health"
measure "cold forecasts" 4 "$work/cold.lua" "$address" >"$work/cold" & others+=($!)
measure "uploads" 4 "$work/upload.lua" "$address" >"$work/upload" & others+=($!)
measure "cached beside" 4 "$work/report.lua" "$address$forecast" >"$work/cached" & others+=($!)
measure "health beside" 2 "$work/report.lua" "$address/health"
wait "${others[@]}"
cat "$work/cold" "$work/upload" "$work/cached"
echo "resident $(resident), most $(awk '/VmHWM/ { printf "%d MB", $2 / 1024 }' /proc/$service/status)"
kill $service
wait $service || true
sort "$work/err" | uniq -c | head
