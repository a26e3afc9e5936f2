// What shares a breaker with {point}?
// parameter point: a load point, for example bench-1.top
// columns: subject, status, basis, breakers, place
// kind: answer
MATCH (p:LoadPoint {key: $house + '/' + $point})
CALL (p) {
  MATCH (p)-[f:FED_BY]->(:Pole)-[:PART_OF]->(b:Breaker)
  WITH b, min(CASE f.sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt
  MATCH (b)<-[:PART_OF]-(:Pole)<-[g:FED_BY]-(q:LoadPoint)
  RETURN collect({point: q.name, breaker: b.name, basis: g.basis,
                  doubt: CASE WHEN doubt = 1 OR g.sureness = 'may' THEN 1 ELSE 0 END}) AS shared
}
MATCH (q:LoadPoint)
  WHERE q.key STARTS WITH $house + '/' AND q <> p
WITH q, [s IN shared WHERE s.point = q.name] AS mine
WITH q, mine, any(s IN mine WHERE s.doubt = 0) AS isShown
WITH q, mine, isShown,
     CASE size(mine)
       WHEN 0 THEN COLLECT { MATCH (q)-[f:FED_BY]->() WHERE f.sureness <> 'may' RETURN f.basis }
       ELSE [s IN mine WHERE s.doubt = 0 OR NOT isShown | s.basis]
     END AS bases
RETURN q.name AS subject,
       CASE
         WHEN size(mine) = 0 THEN 'excluded'
         WHEN isShown THEN 'shown'
         ELSE 'possible'
       END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       COLLECT { UNWIND mine AS s RETURN DISTINCT s.breaker AS breaker ORDER BY breaker } AS breakers,
       q.place AS place
ORDER BY subject
