// Which way do the hot, the neutral and the ground of {point} go back to the panel?
// parameter point: a load point, for example bench-1.top
// columns: subject, status, basis, conductor, terminal, unknown, hops, ways
// kind: answer
// note: subject is the pole or bar that is reached; the why is the way, hop by hop. unknown: it passes something that is not recorded.
MATCH (p:LoadPoint {key: $house + '/' + $point})-[w:FED_BY|RETURNS_OVER|GROUNDED_OVER]->(end)
RETURN end.name AS subject,
       w.sureness AS status,
       w.basis AS basis,
       CASE type(w) WHEN 'FED_BY' THEN 'hot' WHEN 'GROUNDED_OVER' THEN 'ground' ELSE w.over END AS conductor,
       w.terminal AS terminal,
       w.throughUnknown AS unknown,
       size(coalesce(w.hopNames, [])) AS hops,
       [w] AS ways
ORDER BY type(w), terminal, subject
