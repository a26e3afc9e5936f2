// Which wires are too small for their breaker?
// columns: subject, status, basis, size, material, breaker, rating, limit, cable, ways
// kind: answer
// note: limits of 240.4(D): copper 14, 12, 10 AWG at 15, 20, 30 A; aluminium and copper-clad 12, 10 AWG at 15, 25 A. Motors, air
// note: conditioners and some taps may have more: the local code and the inspector decide.
MATCH (b:Breaker)<-[:PART_OF]-(:Pole)<-[h:HOT_OF]-(w:Wire)
  WHERE b.key STARTS WITH $house + '/' AND b.amperes IS NOT NULL AND w.size IN ['14', '12', '10']
WITH b, w, min(CASE h.sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt,
     CASE
       WHEN w.material IN ['aluminium', 'copper-clad'] THEN CASE w.size WHEN '12' THEN 15 WHEN '10' THEN 25 ELSE 0 END
       ELSE CASE w.size WHEN '14' THEN 15 WHEN '12' THEN 20 ELSE 30 END
     END AS limit
  WHERE b.amperes > limit
MATCH (w)-[:PART_OF]->(c:Cable)
RETURN w.name AS subject,
       CASE doubt WHEN 0 THEN 'shown' ELSE 'possible' END AS status,
       c.basis AS basis,
       w.size + ' AWG' AS size,
       coalesce(w.material, 'not known') AS material,
       b.name AS breaker,
       b.amperes AS rating,
       limit,
       c.name AS cable,
       COLLECT { MATCH (b)<-[:PART_OF]-(:Pole)<-[f:FED_BY]-() WHERE w.name IN f.hopNames RETURN f LIMIT 1 } AS ways
ORDER BY breaker, subject
