// Which breakers may feed what is in {box}?
// parameter box: a box or panel, for example bench
// columns: subject, status, basis, label, how, ways
// kind: answer
// note: this is no shut-off: what comes back through loads and neutrals is not in it.
OPTIONAL MATCH (box:Box {key: $house + '/' + $box})
OPTIONAL MATCH (panel:Panel {key: $house + '/' + $box})
WITH coalesce(box, panel) AS x
  WHERE x IS NOT NULL
CALL (x) {
  MATCH (x)<-[:ENDS_IN]-(:Cable)<-[:PART_OF]-(w:Wire)-[h:HOT_OF]->(o:Pole)
  RETURN o, h.sureness AS sureness, null AS basis, 'feeds wire ' + w.name AS how
  UNION
  MATCH (x)<-[e:PASSES|MAY_END_IN]-(:Cable)<-[:PART_OF]-(w:Wire)-[h:HOT_OF]->(o:Pole)
  RETURN o, CASE type(e) WHEN 'PASSES' THEN h.sureness ELSE 'may' END AS sureness, null AS basis, 'feeds wire ' + w.name AS how
  UNION
  MATCH (x)<-[:IN]-(:Device)<-[:ON]-(p:LoadPoint)-[f:FED_BY]->(o:Pole)
  RETURN o, f.sureness AS sureness, f.basis AS basis, 'feeds ' + p.name AS how
  UNION
  MATCH (x)<-[:ENDS_IN]-(:Cable)<-[:PART_OF]-(w:Wire)-[:JOINED_IN]->(:Island)-[:CARRIES]->(o:Pole)
  RETURN o, 'shown' AS sureness, null AS basis, 'returns over wire ' + w.name AS how
  UNION
  MATCH (x)<-[:OPEN_AT]-(:OpenRegion)-[:MAY_JOIN]->(:Breaker)<-[:PART_OF]-(o:Pole)
  RETURN o, 'may' AS sureness, null AS basis, 'is not excluded' AS how
}
WITH x, o.breaker AS breaker, min(CASE sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt,
     collect({how: how, basis: basis, doubt: CASE sureness WHEN 'may' THEN 1 ELSE 0 END}) AS all
WITH x, breaker, doubt,
     COLLECT { UNWIND all AS a RETURN DISTINCT a.how + CASE a.doubt WHEN 1 THEN ' (possibly)' ELSE '' END AS how ORDER BY how } AS how,
     [a IN all WHERE a.doubt = doubt | a.basis] AS bases
WITH x, collect({breaker: breaker, how: how, bases: bases, doubt: doubt}) AS found
MATCH (b:Breaker)
  WHERE b.key STARTS WITH $house + '/'
WITH x, b, head([f IN found WHERE f.breaker = b.name]) AS f
RETURN b.name AS subject,
       CASE WHEN f IS NULL THEN 'excluded' WHEN f.doubt = 0 THEN 'shown' ELSE 'possible' END AS status,
       coalesce(head([g IN ['assumed', 'labelled', 'tested', 'seen'] WHERE g IN f.bases]), x.basis) AS basis,
       b.label AS label,
       coalesce(f.how, []) AS how,
       COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[w:FED_BY]-(p) WHERE f IS NOT NULL AND (x.name IN w.hopBoxes OR (f.doubt = 1 AND p.box = x.name)) RETURN w LIMIT 2 } AS ways
ORDER BY subject
