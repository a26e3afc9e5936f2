// Which load points have no ground?
// columns: subject, status, basis, place, kind
// kind: answer
// note: excluded are those whose ground is shown to reach a ground bar.
MATCH (p:LoadPoint)
  WHERE p.key STARTS WITH $house + '/'
WITH p,
     COLLECT { MATCH (p)-[g:GROUNDED_OVER]->() RETURN g } AS grounds,
     COLLECT { MATCH (p)-[f:FED_BY]->() WHERE f.sureness <> 'may' RETURN f.basis } AS feeds
WITH p, grounds, [g IN grounds | g.basis] + CASE size(grounds) WHEN 0 THEN feeds ELSE [] END AS bases
RETURN p.name AS subject,
       CASE
         WHEN size(grounds) = 0 THEN 'shown'
         WHEN any(g IN grounds WHERE g.sureness <> 'may') THEN 'excluded'
         ELSE 'possible'
       END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       p.place AS place,
       p.kind AS kind
ORDER BY place, subject
