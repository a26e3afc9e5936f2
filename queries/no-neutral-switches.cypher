// Which switch boxes have no neutral?
// columns: subject, status, basis, switches, place, ways
// kind: answer
// note: shown only where every cable and joint of the box is recorded; excluded are boxes in which a neutral is shown.
MATCH (d:Device)-[:IN]->(x:Box)
  WHERE d.key STARTS WITH $house + '/' AND d.family = 'switch'
WITH x, collect(d.name) AS switches
WITH x, switches,
     COLLECT { MATCH (x)<-[:ENDS_IN]-(:Cable)<-[:PART_OF]-(w:Wire) WHERE w.neutral IS NOT NULL RETURN w.neutral } AS neutrals,
     EXISTS { MATCH (x)<-[:ENDS_IN]-(:Cable)<-[:PART_OF]-(w:Wire) WHERE NOT coalesce(w.known, false) } AS unknown
RETURN x.name AS subject,
       CASE
         WHEN 'must' IN neutrals OR 'shown' IN neutrals THEN 'excluded'
         WHEN size(neutrals) = 0 AND NOT unknown AND x.cablesComplete AND x.jointsComplete THEN 'shown'
         ELSE 'possible'
       END AS status,
       x.basis AS basis,
       switches,
       x.place AS place,
       COLLECT { MATCH (p:LoadPoint)-[w:FED_BY|RETURNS_OVER]->() WHERE p.key STARTS WITH $house + '/' AND x.name IN w.hopBoxes RETURN w ORDER BY type(w) DESC LIMIT 1 } AS ways
ORDER BY place, subject
