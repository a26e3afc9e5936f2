// What should go off, and what else changes, with {thing} ({how})?
// parameter thing: a breaker, main, protective device, switch, other device, joint, wire end, cable or source, for example main.4
// parameter how: how it goes: by hand or off its wires, by a trip, one pole open (also a blown fuse: name its pole), a switch that fails open, lost, cut [one of: usual, off, trip, open, fails, lost, cut] [default: usual]
// columns: subject, status, basis, change, hot, neutral, ground, place, how
// kind: answer
// note: excluded are the load points for which nothing changes in any completion of what is not known.
WITH $house + '/' + $thing AS key
MATCH (t:Thing)
  WHERE t.key IN [key, split(key, '@')[0]] AND (t.key = key OR (t:Wire AND key IN [t.key + '@1', t.key + '@2']))
WITH t,
     CASE WHEN t.key <> key THEN toInteger(right(key, 1)) END AS end,
     CASE
       WHEN t:Breaker AND $how IN ['usual', 'off'] THEN 'off-by-hand'
       WHEN t:Breaker AND $how = 'trip' AND t.type = 'breaker' AND (t.commonTrip OR t.poles = 1) THEN 'trips'
       WHEN t:Main AND $how IN ['usual', 'off'] THEN 'off-by-hand'
       WHEN t:Main AND $how = 'trip' AND t.type = 'breaker' THEN 'trips'
       WHEN t:Pole AND $how IN ['usual', 'open'] THEN 'one-pole-open'
       WHEN t:Device AND $how = 'off' THEN 'device-off'
       WHEN t:Device AND size(t.protects) > 0 AND $how IN ['usual', 'trip'] THEN 'guard-opens'
       WHEN t:Device AND t.family IN ['switch', 'disconnect'] AND $how IN ['usual', 'fails'] THEN 'switch-fails'
       WHEN t:Device AND $how = 'usual' THEN 'device-off'
       WHEN t:Joint AND $how IN ['usual', 'lost'] THEN 'joint-lost'
       WHEN t.key <> key AND $how IN ['usual', 'lost'] THEN 'wire-end-lost'
       WHEN t:Cable AND $how IN ['usual', 'cut'] THEN 'cable-cut'
       WHEN t:Source AND $how IN ['usual', 'lost'] THEN 'source-lost'
     END AS mode,
     CASE WHEN t:Breaker THEN 0 WHEN t:Main THEN 1 ELSE 2 END AS rank
ORDER BY mode IS NULL, rank
LIMIT 1
OPTIONAL MATCH (t)-[i:IF_LOST {mode: mode}]->(l:Loss)
  WHERE end IS NULL OR i.end = end
OPTIONAL MATCH (p:LoadPoint)
  WHERE mode IS NOT NULL AND p.key STARTS WITH $house + '/'
OPTIONAL MATCH (l)-[c:CHANGES]->(p)
WITH t, mode, p, c,
     CASE
       WHEN c IS NULL OR c.hot <> 'kept' THEN COLLECT { MATCH (p)-[w:FED_BY]->() WHERE w.sureness <> 'may' OR c.sureness = 'may' RETURN w.basis }
       WHEN c.neutral <> 'kept' THEN COLLECT { MATCH (p)-[w:RETURNS_OVER]->() WHERE w.sureness <> 'may' OR c.sureness = 'may' RETURN w.basis }
       ELSE COLLECT { MATCH (p)-[w:GROUNDED_OVER]->() WHERE w.sureness <> 'may' OR c.sureness = 'may' RETURN w.basis }
     END AS bases
RETURN coalesce(p.name, $thing) AS subject,
       coalesce(c.sureness, 'excluded') AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       CASE
         WHEN mode IS NULL THEN 'it cannot go in this way'
         WHEN c IS NULL THEN 'unchanged'
         WHEN c.hot = 'lost' AND c.sureness = 'may' THEN 'may go off'
         WHEN c.hot = 'lost' THEN 'should be off'
         WHEN c.hot = 'lost-live-through-load' THEN 'its own feed is lost, yet it is live through another load'
         WHEN c.hot = 'one-of-two' THEN 'one of its hots is lost; the others stay live, through the load too'
         WHEN c.neutral = 'lost' THEN 'stays live with its neutral lost: it floats'
         WHEN c.neutral = 'over-ground' THEN 'stays live and returns over ground'
         WHEN c.hot = 'impaired' THEN 'live in fewer switch positions'
         WHEN c.neutral = 'impaired' THEN 'has its neutral in fewer switch positions'
         WHEN c.ground = 'lost' THEN 'stays live with its ground lost'
         ELSE 'has its ground in fewer switch positions'
       END AS change,
       coalesce(c.hot, 'kept') AS hot,
       coalesce(c.neutral, 'kept') AS neutral,
       coalesce(c.ground, 'kept') AS ground,
       p.place AS place,
       mode AS how
ORDER BY hot <> 'lost', subject
