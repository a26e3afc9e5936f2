// Where is the reset for {point}?
// parameter point: a load point, for example bench-1.top
// columns: subject, status, basis, press, functions, place, box, ways
// kind: answer
// note: every protective device whose opening takes its hot away, nearest first; then breakers. Find out why it tripped before it is reset.
MATCH (p:LoadPoint {key: $house + '/' + $point})
CALL (p) {
  MATCH (p)-[r:RELIES_ON {conductor: 'hot'}]->(d)
  WHERE (d:Device AND size(d.protects) > 0) OR d:Breaker
  RETURN d, r.sureness AS sureness, r.basis AS basis
  UNION
  MATCH (p)-[r:PROTECTED_BY]->(d)
  WHERE d:Device OR d:Breaker
  RETURN d, r.sureness AS sureness, r.basis AS basis
}
WITH p, d, min(CASE sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt, collect(basis) AS bases
OPTIONAL MATCH (p)-[g:PROTECTED_BY]->(d)
WITH p, d, doubt, bases, collect(DISTINCT g.function) AS given, min(g.nearness) AS nearness
OPTIONAL MATCH (d)-[:IN]->(x)
RETURN d.name AS subject,
       CASE doubt WHEN 0 THEN 'shown' ELSE 'possible' END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       CASE WHEN d:Device THEN 'RESET on its face' ELSE 'the handle: all the way off, then on' END AS press,
       given AS functions,
       coalesce(d.place, x.place) AS place,
       x.name AS box,
       COLLECT { MATCH (p)-[f:FED_BY]->() WHERE d.name IN f.hopNames OR f.breaker = d.name RETURN f LIMIT 1 } AS ways
ORDER BY d:Breaker, nearness, subject
