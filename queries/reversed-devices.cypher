// Which protective devices are wired line for load?
// columns: subject, status, basis, kind, meaning, place, ways
// kind: answer
// note: its own face is fed without passing its line terminal. Press its test button with a lamp plugged in to see.
MATCH (d:Device)<-[:ON]-(p:LoadPoint)-[f:FED_BY]->(:Pole)
  WHERE d.key STARTS WITH $house + '/' AND size(d.protects) > 0
    AND none(hop IN coalesce(f.hopNames, []) WHERE hop STARTS WITH d.name + '.line')
RETURN d.name AS subject,
       f.sureness AS status,
       f.basis AS basis,
       d.kind AS kind,
       'the feed comes in on its load side: its own face is not protected' AS meaning,
       d.place AS place,
       collect(f) AS ways
ORDER BY subject
