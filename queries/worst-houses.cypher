// Which houses have the most findings (severity: {severity})?
// parameter severity: how bad [one of: danger, fault, advice] [default: danger]
// columns: house, name, found, possible, asked, rules
// kind: listing
// across-houses
// note: Each house by the edition that its record names; what was accepted is not counted.
MATCH (h:House)
  WHERE h.derivation IS NOT NULL AND NOT coalesce(h.draft, false)
// Of each rule: its name, and how many are found, possible, asked, accepted.
WITH h, [t IN coalesce(h[$severity + 'Rules'], []) | split(t, ' ')] AS tallies
WITH h, tallies,
     reduce(n = 0, t IN tallies | n + toInteger(t[1])) AS found,
     reduce(n = 0, t IN tallies | n + toInteger(t[2])) AS possible,
     reduce(n = 0, t IN tallies | n + toInteger(t[3])) AS asked
  WHERE found + possible + asked > 0
RETURN h.key AS house, h.title AS name, found, possible, asked,
       [t IN tallies WHERE t[1] <> '0' OR t[2] <> '0' OR t[3] <> '0' | t[0]] AS rules
ORDER BY found DESC, house
