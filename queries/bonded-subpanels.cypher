// In which panels beside the main one are neutral and ground joined?
// columns: subject, status, basis, meaning, place, ways
// kind: answer
// note: old feeders to outbuildings with three wires were once made so; the local code and the inspector decide.
MATCH (p:Panel)
  WHERE p.key STARTS WITH $house + '/' AND p.bonded
    AND NOT EXISTS { MATCH (s:Source) WHERE s.key STARTS WITH $house + '/' AND s.bond = p.name }
RETURN p.name AS subject,
       'shown' AS status,
       p.basis AS basis,
       'neutral current also returns over ground wires, boxes and pipes' AS meaning,
       p.place AS place,
       COLLECT { MATCH (p)<-[:IN]-(:Bar)<-[w:RETURNS_OVER]-() RETURN w LIMIT 2 } AS ways
ORDER BY subject
