// Which breakers and fuses are there, and what does each serve?
// columns: breaker, panel, space, amperes, poles, protects, position, label, serves, perhaps, behind
// kind: listing
// note: serves: load points whose nearest breaker it is; perhaps: that it may serve; behind: that another panel's breakers serve from it.
MATCH (b:Breaker)
  WHERE b.key STARTS WITH $house + '/'
RETURN b.name AS breaker,
       b.panel AS panel,
       b.space AS space,
       b.amperes AS amperes,
       b.poles AS poles,
       b.protects AS protects,
       b.position AS position,
       b.label AS label,
       COLLECT { MATCH (b)<-[:PART_OF]-()<-[f:FED_BY]-(p) WHERE f.sureness <> 'may' RETURN DISTINCT p.name AS n ORDER BY n } AS serves,
       COLLECT { MATCH (b)<-[:PART_OF]-()<-[f:FED_BY]-(p) WHERE NOT EXISTS { MATCH (b)<-[:PART_OF]-()<-[g:FED_BY]-(p) WHERE g.sureness <> 'may' } RETURN DISTINCT p.name AS n ORDER BY n } AS perhaps,
       COLLECT { MATCH (b)<-[r:PROTECTED_BY {function: 'overcurrent'}]-(p) WHERE r.nearness > 0 RETURN DISTINCT p.name AS n ORDER BY n } AS behind
ORDER BY panel, toInteger(head(split(replace(replace(space, 'a', ''), 'b', ''), '+'))), space
