// Which houses have protective devices whose last test button that worked is more than {days} days ago, or was never recorded?
// parameter days: how many days back [default: 365]
// columns: house, name, unit, building, devices, never, oldest, names
// kind: listing
// across-houses
// note: a device that failed after it had passed counts as never; oldest is the day of the oldest test among those that passed.
WITH toString(date() - duration({days: toInteger($days)})) AS day
CALL (day) {
  MATCH (d:Device) WHERE d.passed < day
  RETURN d.house AS house, d.name AS name, d.passed AS passed
  UNION ALL
  MATCH (d:Breaker) WHERE d.passed < day
  RETURN d.house AS house, d.name AS name, d.passed AS passed
}
WITH house,
     count(*) AS devices,
     count(CASE WHEN passed = '' THEN 1 END) AS never,
     min(CASE WHEN passed <> '' THEN passed END) AS oldest,
     collect(name) AS names
MATCH (h:House {key: house})
  WHERE NOT coalesce(h.draft, false)
OPTIONAL MATCH (u:Unit {house: house})
RETURN house, h.title AS name, u.name AS unit, u.building AS building, devices, never, oldest, names
ORDER BY building, unit, house
