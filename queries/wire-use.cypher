// What is the wire {wire}?
// parameter wire: a wire, for example K1.white
// columns: subject, status, basis, pole, colour, size, ends, ways
// kind: answer
// note: by what it is connected to; its colour is only its colour.
MATCH (w:Wire {key: $house + '/' + $wire})-[:PART_OF]->(c:Cable)
UNWIND CASE WHEN size(coalesce(w.uses, [])) = 0 THEN ['nothing may'] ELSE w.uses END AS use
WITH w, c, split(use, ' ') AS said
WITH w, c, said[0] AS function, CASE size(said) WHEN 3 THEN said[1] END AS pole, last(said) AS sureness
OPTIONAL MATCH (o:Pole {key: $house + '/' + pole})
RETURN CASE function
         WHEN 'nothing' THEN 'nothing known'
         WHEN 'hot' THEN 'hot of ' + pole
         ELSE function
       END AS subject,
       sureness AS status,
       c.basis AS basis,
       pole,
       w.colour AS colour,
       w.size AS size,
       c.ends AS ends,
       COLLECT { MATCH (o)<-[f:FED_BY]-() WHERE w.name IN f.hopNames RETURN f LIMIT 1 } AS ways
ORDER BY subject
