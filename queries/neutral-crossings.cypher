// Where do neutrals cross circuits (kind: {kind})?
// parameter kind: the kind of crossing [one of: any, multiwire, multiwire-without-common-disconnect, shared-on-one-leg, borrowed, return-in-another-cable, islands-joined, across-protection, neutral-to-ground] [default: any]
// columns: subject, status, basis, kind, meaning, poles, points, box, device, island, ways
// kind: answer
MATCH (c:Crossing)
  WHERE c.key STARTS WITH $house + '/' AND ($kind = 'any' OR c.kind = $kind)
OPTIONAL MATCH (c)-[:PARTS_AT]->(x)
WITH c, x,
     COLLECT { MATCH (c)-[:CONCERNS]->(:LoadPoint)-[w:RETURNS_OVER]->() WHERE c.sureness = 'may' OR w.sureness <> 'may' RETURN w }
     + COLLECT { MATCH (p:LoadPoint)-[w:RETURNS_OVER|GROUNDED_OVER]->(b) WHERE c.kind = 'neutral-to-ground' AND p.key STARTS WITH $house + '/' AND (c.island = b.name OR c.island IN w.hopNames) RETURN w LIMIT 2 } AS ways
RETURN c.name AS subject,
       c.sureness AS status,
       coalesce(head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE any(w IN ways WHERE w.basis = b)]), x.basis) AS basis,
       c.kind AS kind,
       CASE c.kind
         WHEN 'multiwire' THEN 'in order: unlike legs, opened together, in one cable'
         WHEN 'multiwire-without-common-disconnect' THEN 'unlike legs on one neutral that are not opened together: with one off, the neutral still carries the other'
         WHEN 'shared-on-one-leg' THEN 'poles of one leg on one neutral: it carries their sum, and no breaker sees it'
         WHEN 'borrowed' THEN 'the current returns on the neutral of another circuit'
         WHEN 'return-in-another-cable' THEN 'the current returns in another cable than it came in'
         WHEN 'islands-joined' THEN 'the neutrals of two circuits are joined: a loop'
         WHEN 'across-protection' THEN 'it passes a protective device on one conductor only: it trips under load'
         WHEN 'neutral-to-ground' THEN 'neutral and ground meet past the bonding point'
       END AS meaning,
       c.poles AS poles,
       c.loadPoints AS points,
       c.box AS box,
       c.device AS device,
       c.island AS island,
       ways
ORDER BY kind = 'multiwire', kind, box, subject
