// Which single joint, wire end, device or cable takes the most with it when it fails?
// columns: subject, status, basis, kind, goesOff, floats, points, box, ways
// kind: answer
// note: goesOff: load points that should be off with it; floats: those that stay live with their neutral lost. The twenty worst.
MATCH (t:Thing)-[i:IF_LOST]->(l:Loss)-[c:CHANGES]->(p:LoadPoint)
  WHERE t.key STARTS WITH $house + '/' AND i.mode IN ['joint-lost', 'wire-end-lost', 'device-off', 'cable-cut']
WITH t, i, c, p
WITH t, i.mode AS mode, i.end AS end, t.name + coalesce('@' + toString(i.end), '') AS name,
     count(DISTINCT CASE WHEN c.hot = 'lost' THEN p END) AS goesOff,
     count(DISTINCT CASE WHEN c.hot <> 'lost' AND c.neutral = 'lost' THEN p END) AS floats,
     collect(DISTINCT p.name) AS points,
     min(CASE c.sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt
  WHERE goesOff + floats > 1
WITH t, mode, end, name, goesOff, floats, points, doubt
ORDER BY goesOff + floats DESC, floats DESC, name
LIMIT 20
RETURN name AS subject,
       CASE doubt WHEN 0 THEN 'shown' ELSE 'possible' END AS status,
       coalesce(t.basis, 'assumed') AS basis,
       mode AS kind,
       goesOff,
       floats,
       COLLECT { UNWIND points AS point RETURN point ORDER BY point } AS points,
       coalesce(t.box, head(COLLECT { MATCH (t)-[:PART_OF]->(:Cable)-[:ENDS_IN {end: end}]->(x) RETURN x.name AS box }), '') AS box,
       COLLECT { UNWIND points AS point MATCH (p:LoadPoint {key: $house + '/' + point})-[w:FED_BY|RETURNS_OVER|GROUNDED_OVER]->() WHERE name IN w.hopNames OR any(hop IN w.hopNames WHERE hop STARTS WITH name + '.') RETURN w LIMIT 1 } AS ways
ORDER BY goesOff + floats DESC, floats DESC, subject
