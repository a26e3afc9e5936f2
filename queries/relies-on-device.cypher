// Which load points rely on {device} for protection?
// parameter device: a protective receptacle, dead-front unit, breaker or main, for example bath-gf
// columns: subject, status, basis, functions, place
// kind: answer
// note: shown where it holds in every world, possible where in some; excluded are the others.
MATCH (d:Thing {key: $house + '/' + $device})
  WHERE d:Device OR d:Breaker OR d:Main
MATCH (p:LoadPoint)
  WHERE p.key STARTS WITH $house + '/'
OPTIONAL MATCH (p)-[r:PROTECTED_BY]->(d)
WITH d, p, collect(r) AS rs
WITH p, rs,
     EXISTS { MATCH (o:OpenRegion)-[:MAY_JOIN]->(p) WHERE d:Main OR EXISTS { MATCH (o)-[:MAY_JOIN]->(d) } OR EXISTS { MATCH (o)-[:MAY_JOIN]->(:LoadPoint)-[:ON]->(d) } OR EXISTS { MATCH (o)-[:OPEN_AT]->()<-[:IN]-(d) } } AS open,
     CASE size(rs) WHEN 0 THEN COLLECT { MATCH (p)-[f:FED_BY]->() WHERE f.sureness <> 'may' RETURN f.basis } ELSE [r IN rs | r.basis] END AS bases
RETURN p.name AS subject,
       CASE
         WHEN size(rs) = 0 AND open THEN 'possible'
         WHEN size(rs) = 0 THEN 'excluded'
         WHEN any(r IN rs WHERE r.sureness = 'must') THEN 'shown'
         ELSE 'possible'
       END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       [r IN rs | r.function + CASE r.sureness WHEN 'must' THEN '' ELSE ' (possibly)' END] AS functions,
       p.place AS place
ORDER BY subject
