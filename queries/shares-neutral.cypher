// Which breakers return over a neutral that {breaker} returns over?
// parameter breaker: a breaker, for example main.4
// columns: subject, status, basis, island, wires, points, ways
// kind: answer
// note: a neutral that is opened while one of these is on can carry current, and what hangs on it can get too many volts.
MATCH (b:Breaker {key: $house + '/' + $breaker})<-[:PART_OF]-(:Pole)<-[:CARRIES]-(i:Island)-[:CARRIES]->(:Pole)-[:PART_OF]->(other:Breaker)
  WHERE other <> b
WITH DISTINCT i, other
WITH i, other,
     COLLECT { MATCH (i)<-[:RETURNS_ON]-(p:LoadPoint)-[:FED_BY]->(:Pole)-[:PART_OF]->(other) RETURN DISTINCT p.name AS n ORDER BY n } AS points,
     COLLECT { MATCH (i)<-[:RETURNS_ON]-(p:LoadPoint)-[w:RETURNS_OVER]->() WHERE w.sureness <> 'may' AND EXISTS { MATCH (p)-[:FED_BY]->(:Pole)-[:PART_OF]->(other) } RETURN w } AS ways
RETURN other.name AS subject,
       'shown' AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(w IN ways WHERE w.basis = b)]) AS basis,
       i.name AS island,
       COLLECT { MATCH (i)<-[:JOINED_IN]-(w:Wire) RETURN w.name ORDER BY w.name } AS wires,
       points,
       ways
ORDER BY subject, island
