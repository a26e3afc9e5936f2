// Which breakers carry a label that names a place or a load where they feed nothing?
// columns: subject, status, basis, label, names, feeds, places, ways
// kind: answer
// note: only the words are compared, so it is told as possible, never as shown.
MATCH (p:Place)
  WHERE p.key STARTS WITH $house + '/'
WITH collect({what: coalesce(p.title, p.name), place: p.name, words: [coalesce(p.title, p.name), p.name, p.kind]}) AS places
OPTIONAL MATCH (q:LoadPoint)
  WHERE q.key STARTS WITH $house + '/' AND q.load IS NOT NULL
WITH places, collect({what: q.load, load: q.load, words: [replace(q.load, '-', ' '), q.load]}) AS loads
WITH places + loads AS things
MATCH (b:Breaker)
  WHERE b.key STARTS WITH $house + '/' AND b.label IS NOT NULL
WITH b,
     [t IN things WHERE any(word IN t.words WHERE word <> 'other' AND toLower(b.label) CONTAINS toLower(word))] AS named,
     COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[:FED_BY]-(q:LoadPoint) RETURN DISTINCT q } AS fed
  WHERE size(named) > 0 AND size(fed) > 0
    AND none(t IN named WHERE any(q IN fed WHERE coalesce(q.place = t.place, false) OR coalesce(q.load = t.load, false)))
RETURN b.name AS subject,
       'possible' AS status,
       'labelled' AS basis,
       b.label AS label,
       COLLECT { UNWIND named AS t RETURN DISTINCT t.what AS what ORDER BY what } AS names,
       [q IN fed | q.name] AS feeds,
       COLLECT { UNWIND fed AS q RETURN DISTINCT q.place AS place ORDER BY place } AS places,
       COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[w:FED_BY]-() WHERE w.sureness <> 'may' RETURN w LIMIT 2 } AS ways
ORDER BY subject
