package org.splicebook.cli;

import java.io.PrintWriter;

/**
 * What a command prints to.
 *
 * @param out for answers
 * @param err for problems and progress
 * @param width columns
 * @param attended whether a person looks on: only then is progress drawn
 */
public record Terminal(PrintWriter out, PrintWriter err, int width, boolean attended) {}
