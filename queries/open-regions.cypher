// What is not known, and what may hang on it?
// columns: region, boxes, breakers, points, cables
// kind: listing
// note: any of these breakers may feed any of these load points until the boxes have been looked into.
MATCH (o:OpenRegion)
  WHERE o.key STARTS WITH $house + '/'
RETURN o.name AS region,
       COLLECT { MATCH (o)-[:OPEN_AT]->(x) RETURN x.name ORDER BY x.name } AS boxes,
       COLLECT { MATCH (o)-[:MAY_JOIN]->(b:Breaker) RETURN b.name ORDER BY b.name } AS breakers,
       COLLECT { MATCH (o)-[:MAY_JOIN]->(p:LoadPoint) RETURN p.name ORDER BY p.name } AS points,
       COLLECT { MATCH (o)-[:MAY_JOIN]->(c:Cable) RETURN c.name ORDER BY c.name } AS cables
ORDER BY o.loadPoints DESC, region
