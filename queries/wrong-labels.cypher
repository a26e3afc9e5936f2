// Which breakers carry a label that names a place where they feed nothing?
// columns: subject, status, basis, label, names, feeds
// kind: answer
// note: only the words are compared, so it is told as possible, never as shown.
MATCH (p:Place)
  WHERE p.key STARTS WITH $house + '/'
WITH collect(p) AS places
MATCH (b:Breaker)
  WHERE b.key STARTS WITH $house + '/' AND b.label IS NOT NULL
UNWIND places AS p
WITH b, p
  WHERE toLower(b.label) CONTAINS toLower(coalesce(p.title, p.name))
     OR toLower(b.label) CONTAINS toLower(p.name)
     OR (p.kind <> 'other' AND toLower(b.label) CONTAINS p.kind)
WITH b, collect(p) AS named,
     COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[:FED_BY]-(q:LoadPoint) RETURN DISTINCT q.place } AS fed
  WHERE size(fed) > 0 AND none(p IN named WHERE p.name IN fed)
RETURN b.name AS subject,
       'possible' AS status,
       'labelled' AS basis,
       b.label AS label,
       [p IN named | coalesce(p.title, p.name)] AS names,
       fed AS feeds
ORDER BY subject
