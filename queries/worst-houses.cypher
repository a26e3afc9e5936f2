// Which houses have the most findings (severity: {severity})?
// parameter severity: how bad [one of: danger, fault, advice] [default: danger]
// columns: house, name, found, possible, asked, rules
// kind: listing
// across-houses
// note: Each house by the edition that its record names; what was accepted is not counted.
MATCH (f:Finding {severity: $severity})
  WHERE NOT f.accepted
WITH f.house AS house,
     count(CASE WHEN f.certainty = 'found' THEN 1 END) AS found,
     count(CASE WHEN f.certainty = 'possible' THEN 1 END) AS possible,
     count(CASE WHEN f.certainty = 'asked' THEN 1 END) AS asked,
     collect(DISTINCT f.rule) AS rules
MATCH (h:House {key: house})
  WHERE NOT coalesce(h.draft, false)
RETURN house, h.title AS name, found, possible, asked, rules
ORDER BY found DESC, house
