// In which units do load points return over another source than they are fed from?
// columns: house, name, unit, building, points, shown, returns over
// kind: listing
// across-houses
// note: houses with one source cannot have any; whether the two sources come from one part of a property is told by its question neutrals-across.
MATCH (h:House) WHERE h.sources > 1 AND NOT coalesce(h.draft, false)
MATCH (s:Source)-[:OF]->(h)
MATCH (p:LoadPoint) WHERE p.key STARTS WITH h.key + '/'
MATCH (p)-[r:RETURNS_OVER {over: 'neutral'}]->()
WHERE r.hopKinds ENDS WITH 's' AND last(r.hopNames) = s.name
  AND EXISTS { MATCH (p)-[:FED_BY]->() }
  AND NOT EXISTS { MATCH (p)-[f:FED_BY]->() WHERE any(pole IN f.sourcePoles WHERE pole STARTS WITH s.name + '.') }
WITH h, collect(DISTINCT p.name) AS points, count(DISTINCT CASE WHEN r.sureness <> 'may' THEN p.name END) AS shown, collect(DISTINCT s.name) AS over
OPTIONAL MATCH (u:Unit {house: h.key})
RETURN h.key AS house, h.title AS name, u.name AS unit, u.building AS building, points, shown, over AS `returns over`
ORDER BY building, unit, house
