// Which boxes are buried behind a finish?
// columns: box, place, devices, cables, note, basis
// kind: listing
MATCH (x:Box)
  WHERE x.key STARTS WITH $house + '/' AND x.hidden
RETURN x.name AS box,
       x.place AS place,
       COLLECT { MATCH (x)<-[:IN]-(d:Device) RETURN d.name ORDER BY d.name } AS devices,
       COLLECT { MATCH (x)<-[:ENDS_IN]-(c:Cable) RETURN c.name ORDER BY c.name } AS cables,
       x.note AS note,
       x.basis AS basis
ORDER BY box
