package org.splicebook.panelplan.upgrade;

import java.util.List;

/**
 * What comes up while a plan is made.
 *
 * @param asked what has to be known
 * @param separate what has to be put right before the panel is changed
 * @param assumed what was taken to be so
 */
record Notes(List<String> asked, List<String> separate, List<String> assumed) {}
