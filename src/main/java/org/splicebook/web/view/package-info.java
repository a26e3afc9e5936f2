/** What pages show, free of HTML: the templates in {@code src/main/jte} lay it out. Public because compiled templates have a package of their own. */
@NullMarked
package org.splicebook.web.view;

import org.jspecify.annotations.NullMarked;
