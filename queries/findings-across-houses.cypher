// What do the checks of all houses find (severity: {severity}), and in how many houses?
// parameter severity: how bad [one of: danger, fault, advice] [default: danger]
// columns: rule, title, houses, found, possible, asked, accepted
// kind: listing
// across-houses
// note: Each house by the edition that its record names.
MATCH (h:House)
  WHERE h.derivation IS NOT NULL AND NOT coalesce(h.draft, false)
// Of each rule: its name, and how many are found, possible, asked, accepted.
UNWIND h[$severity + 'Rules'] AS tally
WITH split(tally, ' ') AS t
WITH t[0] AS rule, count(*) AS houses,
     sum(toInteger(t[1])) AS found,
     sum(toInteger(t[2])) AS possible,
     sum(toInteger(t[3])) AS asked,
     sum(toInteger(t[4])) AS accepted
RETURN rule,
       head(COLLECT { MATCH (f:Finding {rule: rule}) RETURN f.title LIMIT 1 }) AS title,
       houses, found, possible, asked, accepted
ORDER BY found DESC, rule
