// Which 240 V loads can be half live, and with what opened?
// columns: subject, status, basis, with, how, place
// kind: answer
// note: one of its hots is lost and the other stays: it does not run, and both its terminals can shock, through the load too.
MATCH (p:LoadPoint)<-[c:CHANGES {hot: 'one-of-two'}]-(:Loss)<-[i:IF_LOST]-(t:Thing)
  WHERE p.key STARTS WITH $house + '/' AND i.mode IN ['off-by-hand', 'trips', 'one-pole-open', 'switch-fails', 'guard-opens']
WITH p, t, collect(DISTINCT i.mode) AS modes, min(CASE c.sureness WHEN 'may' THEN 1 ELSE 0 END) AS doubt,
     COLLECT { MATCH (p)-[w:FED_BY]->() WHERE w.sureness <> 'may' RETURN w.basis } AS bases
RETURN p.name AS subject,
       CASE doubt WHEN 0 THEN 'shown' ELSE 'possible' END AS status,
       head([b IN ['assumed', 'labelled', 'tested', 'seen'] WHERE b IN bases]) AS basis,
       t.name AS with,
       CASE
         WHEN 'off-by-hand' IN modes THEN 'opened by hand: its other hot is on another breaker'
         WHEN 'trips' IN modes THEN 'a trip opens one hot only'
         WHEN 'one-pole-open' IN modes THEN 'one pole fails open, or one fuse blows'
         WHEN 'switch-fails' IN modes THEN 'the switch opens one hot only'
         ELSE 'the protective device opens one hot only'
       END AS how,
       p.place AS place
ORDER BY how, subject, with
