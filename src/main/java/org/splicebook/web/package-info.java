/**
 * The HTTP side: the API under {@code /api/v1} that {@code openapi.yaml} describes, a few pages, and the store as a client of that API sees it.
 *
 * <p>May import {@code problem}, {@code record}, {@code wiring}, {@code answer}, {@code store}, {@code people}, {@code render} and {@code housefile};
 * the only package that uses Javalin.
 */
@NullMarked
package org.splicebook.web;

import org.jspecify.annotations.NullMarked;
