/**
 * Benchmarks of single functions, run with JMH.
 *
 * <p>May import what it measures, and the random houses of {@code oracle}.
 */
package org.splicebook.bench;
