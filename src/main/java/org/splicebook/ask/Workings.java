package org.splicebook.ask;

import java.util.List;
import java.util.Optional;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.evidence.Evidence;
import org.splicebook.wiring.shutoff.ShutOffs;

/** What a computation may ask for beside the house as it is: its past, and what takes long to work out and is kept. */
interface Workings {
    /** {@return every revision of the house, oldest first} */
    List<Revision> revisions();

    /** {@return one revision, if it is there} */
    Optional<StoredHouse> revision(long number);

    /** {@return what is derived from a revision} */
    Wiring wiring(StoredHouse stored);

    /** {@return which of the house's sightings still stand} */
    Standing standing();

    /** {@return what must be off, with the sightings that stand} */
    ShutOffs shutOffs();

    /** {@return what the sightings that stand show} */
    Evidence evidence();
}
