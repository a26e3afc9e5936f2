// What do the checks of all houses find (severity: {severity}), and in how many houses?
// parameter severity: how bad [one of: danger, fault, advice] [default: danger]
// columns: rule, title, houses, found, possible, asked, accepted
// kind: listing
// across-houses
// note: Each house by the edition that its record names.
MATCH (f:Finding {severity: $severity})
MATCH (h:House {key: f.house})
  WHERE NOT coalesce(h.draft, false)
RETURN f.rule AS rule,
       head(collect(f.title)) AS title,
       count(DISTINCT f.house) AS houses,
       count(CASE WHEN f.certainty = 'found' AND NOT f.accepted THEN 1 END) AS found,
       count(CASE WHEN f.certainty = 'possible' AND NOT f.accepted THEN 1 END) AS possible,
       count(CASE WHEN f.certainty = 'asked' AND NOT f.accepted THEN 1 END) AS asked,
       count(CASE WHEN f.accepted THEN 1 END) AS accepted
ORDER BY found DESC, rule
