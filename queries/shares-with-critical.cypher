// What shares a breaker with an alarm, a freezer, a furnace or another load that must not go off unnoticed?
// parameter load: one load that counts, for example freezer [default: any]
// columns: subject, status, basis, breaker, shares, places, place, ways
// kind: answer
// note: a trip by any of what shares it goes unnoticed until the food is spoilt, the cellar wet or the alarm silent. Medical and life-safety loads are
// note: to be warned of first. any: alarms, freezer, refrigerator, furnace, boiler, sump, well pump, medical, aquarium, door opener.
MATCH (p:LoadPoint)-[f:FED_BY]->(:Pole)-[:PART_OF]->(b:Breaker)
  WHERE p.key STARTS WITH $house + '/'
    AND CASE $load
      WHEN 'any' THEN p.family = 'alarm' OR p.load IN ['smoke-alarm', 'alarm', 'freezer', 'refrigerator', 'furnace', 'boiler', 'sump-pump', 'sump', 'well-pump', 'sewage-pump', 'medical', 'oxygen', 'stair-lift', 'aquarium', 'door-opener', 'heat-tape', 'network']
      ELSE p.load = $load OR p.kind = $load
    END
WITH p, b, min(CASE f.sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt, collect(f) AS ways
WITH p, b, doubt, ways,
     COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[:FED_BY]-(q:LoadPoint) WHERE q.device <> p.device RETURN DISTINCT q.name AS n ORDER BY n } AS shares,
     COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[:FED_BY]-(q:LoadPoint) WHERE q.device <> p.device RETURN DISTINCT q.place AS n ORDER BY n } AS places
RETURN p.name AS subject,
       CASE doubt WHEN 0 THEN 'shown' ELSE 'possible' END AS status,
       head([x IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(w IN ways WHERE w.basis = x)]) AS basis,
       b.name AS breaker,
       shares,
       places,
       p.place AS place,
       ways
ORDER BY size(shares) DESC, subject
