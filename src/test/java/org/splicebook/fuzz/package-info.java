/** What strangers may send, mutated: the ordinary tests run the seeds alone, {@code FuzzIT} goes on from them. */
package org.splicebook.fuzz;
