// Which wires end capped, as spares?
// columns: joint, box, place, wire, uses, basis
// kind: listing
// note: a capped wire can be live; uses says what it is by the other end. Bare ones are left out.
MATCH (j:Joint)
  WHERE j.key STARTS WITH $house + '/' AND j.capped
MATCH (j)<-[:TOUCHES]-(w:Wire)
  WHERE w.colour <> 'bare'
OPTIONAL MATCH (j)-[:IN]->(x)
RETURN j.name AS joint, j.box AS box, x.place AS place, w.name AS wire, w.uses AS uses, j.basis AS basis
ORDER BY joint
