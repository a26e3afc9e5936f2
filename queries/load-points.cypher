// Which load points are there, place by place?
// columns: place, point, device, kind, load, box, supply, breakers, perhaps
// kind: listing
// note: perhaps: breakers that are only possible.
MATCH (p:LoadPoint)
  WHERE p.key STARTS WITH $house + '/'
RETURN p.place AS place,
       p.name AS point,
       p.device AS device,
       p.kind AS kind,
       p.load AS load,
       p.box AS box,
       p.supply AS supply,
       COLLECT { MATCH (p)-[f:FED_BY]->() WHERE f.sureness <> 'may' RETURN DISTINCT f.breaker AS b ORDER BY b } AS breakers,
       COLLECT { MATCH (p)-[f:FED_BY]->() WHERE NOT EXISTS { MATCH (p)-[g:FED_BY]->() WHERE g.breaker = f.breaker AND g.sureness <> 'may' } RETURN DISTINCT f.breaker AS b ORDER BY b } AS perhaps
ORDER BY place, point
