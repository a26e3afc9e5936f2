// Which houses have a crossing of the kind {kind}?
// parameter kind: the kind of crossing [one of: multiwire, multiwire-without-common-disconnect, shared-on-one-leg, borrowed, return-in-another-cable, islands-joined, across-protection, neutral-to-ground] [default: borrowed]
// columns: house, name, shown, possible, boxes
// kind: listing
// across-houses
MATCH (c:Crossing {kind: $kind})
WITH c.house AS house,
     count(CASE WHEN c.sureness <> 'may' THEN 1 END) AS shown,
     count(CASE WHEN c.sureness = 'may' THEN 1 END) AS possible,
     collect(DISTINCT c.box) AS boxes
MATCH (h:House {key: house})
  WHERE NOT coalesce(h.draft, false)
RETURN house, h.title AS name, shown, possible, boxes
ORDER BY house
