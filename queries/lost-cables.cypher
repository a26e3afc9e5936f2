// Which cables have an end that nobody found?
// columns: cable, kind, ends, wires, since, basis
// kind: listing
// note: wires tells what each of its wires is by the end that is known; the other end can be live.
MATCH (c:Cable)
  WHERE c.key STARTS WITH $house + '/' AND c.open
RETURN c.name AS cable,
       c.kind AS kind,
       c.ends AS ends,
       COLLECT { MATCH (c)<-[:PART_OF]-(w:Wire) UNWIND CASE size(coalesce(w.uses, [])) WHEN 0 THEN ['nothing known'] ELSE w.uses END AS use RETURN w.name + ': ' + use AS said ORDER BY said } AS wires,
       c.since AS since,
       c.basis AS basis
ORDER BY cable
