-- Clients that read and write houses at once, for wrk. It has a thread for each connection, so that an answer is always that to the
-- thread's last request:
--
--   wrk -t50 -c50 -d180s --timeout 60s -s load.lua http://127.0.0.1:PORT -- FOLDER
--
-- FOLDER/reads.txt has a line for each address to read: its class, its path. FOLDER/houses.txt has a line for each house to write to, with
-- a note mark-N-0 for every client N: its id, a breaker, a load point on it. Client N writes FOLDER/N.txt, a line for each answer: class,
-- status, microseconds, and of what was acknowledged: of a write its house, the revisions that it was made from and became, its mark; of a
-- sighting its house and id. "lost" instead of those says that a sighting was not counted as it should have been. Where the status is not
-- 200, the path follows.

local ffi = require("ffi")
ffi.cdef [[
  typedef struct { long sec; long nsec; } moment;
  int clock_gettime(int clock, moment *now);
]]
local MONOTONIC = 1
local now = ffi.new("moment")

local function micros()
  ffi.C.clock_gettime(MONOTONIC, now)
  return tonumber(now.sec) * 1000000 + math.floor(tonumber(now.nsec) / 1000)
end

local threads = 0

function setup(thread)
  threads = threads + 1
  thread:set("client", threads)
end

local reads, houses, file = {}, {}, nil
local mark, seen = 0, 0
local sent, next_one, began = nil, nil, 0

function init(args)
  for line in io.lines(args[1] .. "/reads.txt") do
    local class, path = line:match("^(%S+) (%S+)$")
    reads[#reads + 1] = { class = class, method = "GET", path = path }
  end
  for line in io.lines(args[1] .. "/houses.txt") do
    local id, breaker, point = line:match("^(%S+) (%S+) (%S+)$")
    houses[#houses + 1] = { id = id, path = "/api/v1/houses/" .. id, breaker = breaker, point = point }
  end
  file = io.open(args[1] .. "/" .. client .. ".txt", "w")
  file:setvbuf("line")
  math.randomseed(client * 7919)
end

local function sighting(house, id, new)
  local body = string.format(
    '[{"id": "%s", "date": "2026-03-14", "with-off": ["%s"], "at": "%s", "read": "not lit"}]', id, house.breaker, house.point)
  return { class = "sighting", method = "POST", path = house.path .. "/sightings", house = house, id = id, new = new,
    headers = { ["Content-Type"] = "application/json" }, body = body }
end

-- What a client does next, by lot: of a hundred things it begins 75 are reads, 15 changes of a house, 10 sightings.
local function chosen()
  local lot = math.random(100)
  if lot <= 75 then
    return reads[math.random(#reads)]
  end
  local house = houses[math.random(#houses)]
  if lot <= 90 then
    return { class = "house", method = "GET", path = house.path, house = house, changes = true }
  end
  seen = seen + 1
  return sighting(house, "seen-" .. client .. "-" .. seen, 1)
end

function request()
  sent = next_one or chosen()
  next_one = nil
  local text = wrk.format(sent.method, sent.path, sent.headers, sent.body)
  began = micros()
  return text
end

local function change(house, tag, text)
  mark = mark + 1
  local changed = text:gsub("mark%-" .. client .. "%-%d+", "mark-" .. client .. "-" .. mark, 1)
  return { class = "write", method = "PUT", path = house.path, house = house, base = tag:match('^"(%d+)'), mark = mark,
    headers = { ["Content-Type"] = "application/yaml", ["If-Match"] = tag }, body = changed }
end

local function acknowledged(status, body)
  if status ~= 200 then
    return " " .. sent.path
  end
  if sent.class == "write" then
    return string.format(" %s %s %s %d", sent.house.id, sent.base, body:match('"revision"%s*:%s*(%d+)'), sent.mark)
  end
  if sent.class == "sighting" then
    local new = tonumber(body:match('"new"%s*:%s*(%d+)'))
    return new == sent.new and string.format(" %s %s", sent.house.id, sent.id) or " lost"
  end
  return ""
end

function response(status, headers, body)
  local took = micros() - began
  file:write(string.format("%s %d %d%s\n", sent.class, status, took, acknowledged(status, body)))
  if status ~= 200 then
    return
  end
  if sent.changes then
    next_one = change(sent.house, headers["ETag"], body)
  elseif sent.class == "sighting" and sent.new == 1 and seen % 4 == 0 then
    next_one = sighting(sent.house, sent.id, 0)
  end
end

function done(summary)
  local errors = summary.errors
  io.write(string.format("failed: %d connect, %d read, %d write, %d timeout\n", errors.connect, errors.read, errors.write, errors.timeout))
end
