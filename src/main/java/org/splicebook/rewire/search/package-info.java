/**
 * The search for changes that cure a finding or give a protection: {@code Search.of(House, Pack, Wish, kinds)}. {@code Atoms} proposes,
 * cheap and careless; {@code Validation} judges every house that comes out of it as a whole, and nothing is offered that it did not pass.
 */
@NullMarked
package org.splicebook.rewire.search;

import org.jspecify.annotations.NullMarked;
