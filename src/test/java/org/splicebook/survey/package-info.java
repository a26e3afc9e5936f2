@NullMarked
package org.splicebook.survey;

import org.jspecify.annotations.NullMarked;
