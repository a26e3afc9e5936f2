// What does the check find in this house (severity: {severity})?
// parameter severity: how bad, at least as told here [one of: any, danger, fault, advice] [default: any]
// columns: severity, certainty, title, subject, said, place, breaker, article, accepted, finding
// kind: listing
// note: By the edition that the record names. Advice before an inspection, never an approval.
MATCH (f:Finding)
  WHERE f.key STARTS WITH $house + '/' AND ($severity = 'any' OR f.severity = $severity)
RETURN f.severity AS severity,
       f.certainty AS certainty,
       f.title AS title,
       f.subject AS subject,
       f.said AS said,
       f.place AS place,
       f.breaker AS breaker,
       f.article AS article,
       f.accepted AS accepted,
       f.name AS finding
ORDER BY f.accepted,
         CASE f.certainty WHEN 'found' THEN 1 WHEN 'possible' THEN 2 ELSE 3 END,
         CASE f.severity WHEN 'danger' THEN 1 WHEN 'fault' THEN 2 ELSE 3 END,
         f.rule, f.subject
