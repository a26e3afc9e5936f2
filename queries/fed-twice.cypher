// Which load points are fed from more than one breaker?
// columns: subject, status, basis, supply, meaning, breakers, place
// kind: answer
MATCH (p:LoadPoint)-[f:FED_BY]->(o:Pole)
  WHERE p.key STARTS WITH $house + '/'
WITH p, collect(f) AS feeds, count(DISTINCT f.breaker) AS breakers, count(DISTINCT CASE WHEN f.sureness <> 'may' THEN f.breaker END) AS shown
  WHERE breakers > 1 OR p.supply IN ['twice', 'short']
RETURN p.name AS subject,
       CASE WHEN shown > 1 OR p.supply IN ['twice', 'short'] THEN 'shown' ELSE 'possible' END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(f IN feeds WHERE f.basis = b)]) AS basis,
       p.supply AS supply,
       CASE p.supply
         WHEN 'twice' THEN 'two breakers at once: it dies with neither alone'
         WHEN 'short' THEN 'breakers of unlike legs are joined: a short'
         WHEN 'either' THEN 'one breaker or another, by a switch'
         WHEN 'none' THEN 'no breaker is recorded, and none of these is excluded'
         ELSE 'one breaker as recorded, and others are not excluded; or its hots are on several'
       END AS meaning,
       COLLECT { UNWIND feeds AS f RETURN DISTINCT f.breaker AS breaker ORDER BY breaker } AS breakers,
       p.place AS place
ORDER BY subject
