// Which houses have aluminium branch wiring, or wires of its years whose metal nobody recorded?
// columns: house, name, unit, building, found, possible, asked, subjects
// kind: listing
// across-houses
// note: by the check aluminium-branch-wire, each house by the edition that its record names; asked: what has to be known first.
MATCH (f:Finding {rule: 'aluminium-branch-wire'})
WITH f.house AS house,
     count(CASE WHEN f.certainty = 'found' THEN 1 END) AS found,
     count(CASE WHEN f.certainty = 'possible' THEN 1 END) AS possible,
     count(CASE WHEN f.certainty = 'asked' THEN 1 END) AS asked,
     collect(f.subject) AS subjects
MATCH (h:House {key: house})
  WHERE NOT coalesce(h.draft, false)
OPTIONAL MATCH (u:Unit {house: house})
RETURN house, h.title AS name, u.name AS unit, u.building AS building, found, possible, asked, subjects
ORDER BY found DESC, building, unit, house
