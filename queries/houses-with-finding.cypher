// Which houses have the finding {rule}?
// parameter rule: a rule of the checks, for example borrowed-neutral [default: borrowed-neutral]
// columns: house, name, found, possible, asked, accepted, subjects
// kind: listing
// across-houses
// note: Each house by the edition that its record names.
MATCH (f:Finding {rule: $rule})
WITH f.house AS house,
     count(CASE WHEN f.certainty = 'found' AND NOT f.accepted THEN 1 END) AS found,
     count(CASE WHEN f.certainty = 'possible' AND NOT f.accepted THEN 1 END) AS possible,
     count(CASE WHEN f.certainty = 'asked' AND NOT f.accepted THEN 1 END) AS asked,
     count(CASE WHEN f.accepted THEN 1 END) AS accepted,
     collect(f.subject) AS subjects
MATCH (h:House {key: house})
  WHERE NOT coalesce(h.draft, false)
RETURN house, h.title AS name, found, possible, asked, accepted, subjects
ORDER BY found DESC, house
