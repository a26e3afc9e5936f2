// Which protective devices does {point} rely on?
// parameter point: a load point, for example bench-1.top
// columns: subject, status, basis, function, nearness, rating, ways
// kind: answer
// note: not known: what is not recorded may bring a device.
// note: nearness 0 is the nearest to the load point: for overcurrent, its breaker. Excluded: no device in any world gives that function.
MATCH (p:LoadPoint {key: $house + '/' + $point})
WITH p, COLLECT { MATCH (p)-[w:FED_BY]->() RETURN w } AS fed
UNWIND ['overcurrent', 'ground-fault', 'arc-fault'] AS function
OPTIONAL MATCH (p)-[r:PROTECTED_BY {function: function}]->(d)
RETURN coalesce(d.name, CASE WHEN EXISTS { MATCH (:OpenRegion)-[:MAY_JOIN]->(p) } THEN 'not known' ELSE 'nothing' END) AS subject,
       coalesce(r.sureness, CASE WHEN EXISTS { MATCH (:OpenRegion)-[:MAY_JOIN]->(p) } THEN 'may' ELSE 'excluded' END) AS status,
       coalesce(r.basis, head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(w IN fed WHERE w.basis = b)])) AS basis,
       function,
       r.nearness AS nearness,
       d.amperes AS rating,
       CASE WHEN r IS NULL THEN [] ELSE fed END AS ways
ORDER BY function, nearness, subject
