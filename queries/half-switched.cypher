// Which duplex receptacles have one half switched?
// columns: subject, status, basis, switched, constant, by, place, ways
// kind: answer
MATCH (d:Device)<-[:ON]-(half:LoadPoint)-[r:RELIES_ON {conductor: 'hot'}]->(s:Device {family: 'switch'})
  WHERE d.key STARTS WITH $house + '/' AND d.family = 'receptacle'
WITH d, half, collect(DISTINCT s.name) AS by, min(CASE r.sureness WHEN 'must' THEN 0 ELSE 1 END) AS doubt
MATCH (d)<-[:ON]-(other:LoadPoint)
  WHERE other <> half AND NOT EXISTS { MATCH (other)-[:RELIES_ON {conductor: 'hot', sureness: 'must'}]->(:Device {family: 'switch'}) }
WITH d, half, other, by, doubt, COLLECT { MATCH (half)-[f:FED_BY]->() RETURN f } AS ways
RETURN d.name AS subject,
       CASE WHEN doubt = 0 AND NOT EXISTS { MATCH (other)-[:RELIES_ON {conductor: 'hot'}]->(:Device {family: 'switch'}) } THEN 'shown' ELSE 'possible' END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(w IN ways WHERE w.basis = b)]) AS basis,
       half.name AS switched,
       other.name AS constant,
       by,
       d.place AS place,
       ways
ORDER BY subject
