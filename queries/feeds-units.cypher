// Which units are fed over {thing}, and what does each lose with it?
// parameter thing: a breaker, main, cable (a riser), source, joint or device, for example main.4
// columns: unit, property, fed at, source, how, hot, neutral, sureness
// kind: listing
// note: units that this record's boundaries feed directly; who goes dark in all units is told by the property's question goes-dark.
WITH $house + '/' + $thing AS key
MATCH (t:Thing)
  WHERE t.key IN [key, split(key, '@')[0]]
MATCH (t)-[i:IF_LOST]->(:Loss)-[c:CHANGES]->(p:LoadPoint)
  WHERE t.key + coalesce('@' + toString(i.end), '') = key
MATCH (f:FeedLink {pointKey: p.key})
RETURN f.to AS unit, f.property AS property, f.point AS `fed at`, f.source AS source, i.mode AS how, c.hot AS hot, c.neutral AS neutral, c.sureness AS sureness
ORDER BY property, unit, how
