// Which cables are there, and where do they run?
// parameter kind: a kind of cable, for example open-wire [default: any]
// columns: cable, kind, wires, ends, through, metres, since, basis
// kind: listing
MATCH (c:Cable)
  WHERE c.key STARTS WITH $house + '/' AND ($kind = 'any' OR c.kind = $kind)
RETURN c.name AS cable,
       c.kind AS kind,
       coalesce(c.shorthand, COLLECT { MATCH (c)<-[:PART_OF]-(w:Wire) RETURN w.name ORDER BY w.name }) AS wires,
       c.ends AS ends,
       COLLECT { MATCH (c)-[:PASSES]->(x) RETURN x.name ORDER BY x.name } AS through,
       c.metres AS metres,
       c.since AS since,
       c.basis AS basis
ORDER BY cable
