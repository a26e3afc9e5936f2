// Which wires, spaces and breakers are spare?
// columns: what, name, where, place, note, basis
// kind: listing
// note: a spare wire can be live, and a breaker that feeds nothing recorded may feed something. Test before a spare is used.
CALL () {
  MATCH (j:Joint)<-[:TOUCHES]-(w:Wire)
  WHERE j.key STARTS WITH $house + '/' AND j.capped AND w.colour <> 'bare'
  OPTIONAL MATCH (j)-[:IN]->(x)
  RETURN 'wire' AS what, w.name AS name, j.box AS where, x.place AS place,
         'capped; ' + CASE size(coalesce(w.uses, [])) WHEN 0 THEN 'nothing known of it' ELSE head(w.uses) END AS note, j.basis AS basis
  UNION ALL
  MATCH (p:Panel)
  WHERE p.key STARTS WITH $house + '/' AND p.spaces IS NOT NULL
  WITH p, COLLECT { MATCH (b:Breaker)-[:IN]->(p) UNWIND split(b.space, '+') AS s RETURN replace(replace(s, 'a', ''), 'b', '') AS s } AS taken
  UNWIND range(1, p.spaces) AS space
  WITH p, space, taken
  WHERE NOT toString(space) IN taken
  RETURN 'space' AS what, p.name + '.' + toString(space) AS name, p.name AS where, p.place AS place,
         CASE WHEN p.breakersComplete THEN 'free' ELSE 'free as far as is recorded' END AS note, p.basis AS basis
  UNION ALL
  MATCH (b:Breaker)-[:IN]->(p:Panel)
  WHERE b.key STARTS WITH $house + '/' AND NOT EXISTS { MATCH (b)<-[:PART_OF]-(:Pole)-[:TOUCHES]->() }
  RETURN 'breaker' AS what, b.name AS name, p.name AS where, p.place AS place,
         CASE WHEN p.landingsComplete THEN 'no wire on it' ELSE 'no wire on it as far as is recorded' END AS note, b.basis AS basis
}
RETURN what, name, where, place, note, basis
ORDER BY what DESC, where, name
