// Which load points have no {function} protection, place by place?
// parameter function: the protective function [one of: ground-fault, arc-fault, overcurrent] [default: ground-fault]
// columns: subject, status, basis, place, kindOfPlace, kind
// kind: answer
// note: whether it has to have it is for the local code and the inspector.
MATCH (p:LoadPoint)
  WHERE p.key STARTS WITH $house + '/'
OPTIONAL MATCH (p)-[r:PROTECTED_BY {function: $function}]->()
OPTIONAL MATCH (place:Place {key: $house + '/' + p.place})
WITH p, place, collect(r.sureness) AS sure
  WHERE NOT 'must' IN sure
WITH p, place, sure, COLLECT { MATCH (p)-[f:FED_BY]->() WHERE f.sureness <> 'may' RETURN f.basis } AS bases
RETURN p.name AS subject,
       CASE WHEN size(sure) = 0 AND NOT EXISTS { MATCH (:OpenRegion)-[:MAY_JOIN]->(p) } THEN 'shown' ELSE 'possible' END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       coalesce(place.title, place.name) AS place,
       place.kind AS kindOfPlace,
       p.kind AS kind
ORDER BY place, subject
